// How often the true value lies within 1.96 claimed standard errors of a run's figures, over runs with other seeds.
import { defineModel, prepare, readStudy } from "../../../engine/index.ts";
import { Accumulation, openTrials, readStatement } from "../../../engine/internal.ts";

/** Figures with a standard error. */
export const FIGURES = ["y", "u(y)", "lower endpoint", "upper endpoint"] as const;

const q = (symbol: string) => ({ symbol, meaning: symbol, unit: "1" });
const identity = defineModel({
  id: "identity",
  title: "the input itself",
  measurands: { y: q("y") },
  inputs: { x: q("x") },
  evaluate: ({ x }) => x,
});

const t = (degreesOfFreedom: number) => ({
  distribution: "t",
  estimate: 0,
  standardUncertainty: 1,
  degreesOfFreedom,
});
export const DISTRIBUTIONS: readonly (readonly [string, { readonly distribution: string }])[] = [
  ["normal", { distribution: "normal", estimate: 0, standardUncertainty: 1 } as never],
  ["rectangular", { distribution: "rectangular", estimate: 0, halfWidth: 1 } as never],
  ["t, ν = 3", t(3)],
  ["t, ν = 5", t(5)],
  ["t, ν = 9", t(9)],
  ["exponential", { distribution: "exponential", estimate: 1 } as never],
];

/** Of how many runs a figure was claimed with a standard error, and in how many of them the truth lay within 1.96 of it. */
export interface Covered {
  readonly claimed: number;
  readonly covered: number;
}

/** Runs a distribution with as many seeds, and counts. Every case has draws of its own. */
export function coveredBy(
  name: string,
  statement: { readonly distribution: string },
  { probability, trials, seeds }: { probability: number; trials: number | "adaptive"; seeds: number },
): readonly Covered[] {
  const { mean, standardDeviation, quantile } = readStatement(statement as never, "x").distribution;
  const truth = [mean!, standardDeviation!, quantile((1 - probability) / 2), quantile((1 + probability) / 2)];
  const prepared = prepare(
    identity as never,
    readStudy({ title: "t", model: "identity", inputs: { x: statement }, coverage: { probability }, trials }),
  );
  const counts = FIGURES.map(() => ({ claimed: 0, covered: 0 }));
  for (let i = 0; i < seeds; i++) {
    const source = { ...prepared.source, seed: `${name} ${probability} ${trials} ${i}` };
    const draw = openTrials(source);
    const gathered = new Accumulation({ ...prepared, source });
    for (let count = gathered.next; count > 0; count = gathered.next) gathered.add(draw(gathered.trials, count));
    const { estimate, standardUncertainty, intervals, standardErrors } = gathered.result("y");
    const found = [estimate, standardUncertainty, ...intervals.symmetric];
    const errors = [standardErrors.estimate, standardErrors.standardUncertainty, ...standardErrors.symmetric];
    counts.forEach((count, figure) => {
      const [value, error] = [found[figure]!, errors[figure]!];
      if (value === null || error === null) return;
      count.claimed += 1;
      if (Math.abs(value - truth[figure]!) <= 1.959964 * error) count.covered += 1;
    });
  }
  return counts;
}
