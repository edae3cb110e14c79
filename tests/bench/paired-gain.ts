// What paired trials are worth beside plain ones, by curvature: node tests/generator/run.mjs tests/bench/paired-gain.ts [SEEDS TRIALS]
import { exponential, square, unrelated } from "../engine/paired/models.ts";
import { FIGURES, heldBySeeds } from "../engine/paired/paired-seeds.ts";

const [seeds = 200, trials = 20_000] = process.argv.slice(2).map(Number);
const percent = (part: number): string => `${(100 * part).toFixed(1)} %`;
const models = [...[0.001, 0.01, 0.1, 0.3, 1, 3].map(square), ...[0.1, 0.5, 1].map(exponential), unrelated];

process.stdout.write(
  `Plain standard error over the paired one, and the part of ${seeds} seeds of ${trials} trials that hold the truth within 1.96 paired standard errors.\n\n` +
    "| model | y | u(y) | lower endpoint | upper endpoint | held: y | u(y) | lower | upper |\n| --- | --- | --- | --- | --- | --- | --- | --- | --- |\n",
);
for (const known of models) {
  const held = heldBySeeds(known, seeds, trials);
  const gains = FIGURES.map((figure) => held[figure].gain.toPrecision(3));
  const covered = FIGURES.map((figure) => percent(held[figure].covered));
  process.stdout.write(`| ${[known.title, ...gains, ...covered].join(" | ")} |\n`);
}
