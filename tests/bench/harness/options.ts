import { parseArgs } from "node:util";

/** Everything that can be measured, in the order of the table. */
export const PARTS = {
  W1: "bath comparison by IEC 60751, 12 inputs, 10^6 trials",
  W2: "the same with the reference by ITS-90",
  W3: "W1 with t, triangular, arc sine and gamma inputs and a correlated pair",
  W4: "an adaptive run: cold from the command line, warm through the interface",
  W5: "W1 at 10^8 trials (10^9 with --long): throughput and memory",
  W6: "three measurands with their ellipsoid, 10^6 trials",
  typed: "W1 with its model as a typed equation",
  programs: "models alone: as programs, and by the plain path",
  slow: "what is added to a model that takes its time",
  scaling: "W1 at 10^7 trials with one worker and with two",
  convolution: "the linearised model with the stated distributions, 12 and 60 inputs",
  inputs: "studies of 10, 100 and 1000 inputs: before the first trial, and a record",
  paired: "W1 with its linearised trials and without",
  load: "a server under load: reads, event streams, a burst of starts (autocannon)",
  fleet: "W1 at 10^8 trials and a model of 1 ms by the workers of a queue (needs redis-server)",
  calibration: "a calibration of two instruments, a grid of 41 × 15 points: whole processes",
  others: "W1 after 20 other models in the same process",
  instructions: "instructions a trial (perf, or valgrind)",
} as const;

export type Part = keyof typeof PARTS;
export const partNames = Object.keys(PARTS) as readonly Part[];

export interface Options {
  readonly only: ReadonlySet<Part>;
  readonly rounds: number;
  readonly trials: number;
  readonly long: boolean;
  readonly readme: boolean;
  readonly page: boolean;
  /** Whether results/ and tests/bench/README.md are written: only where the figures are those the table is about. */
  readonly keep: boolean;
}

export const HELP = `npm run bench -- [options]

  --only A,B      measure these parts alone: ${partNames.join(", ")}
  --rounds N      interleaved rounds, at least 3 (7)
  --trials N      trials of W1, W2, W3 and W6 (1000000); with another number nothing is written
  --long          W5 with 10^9 trials in place of 10^8
  --no-readme     leave tests/bench/README.md as it is
  --no-page       do not measure the page in a browser
  --help          this text

${partNames.map((name) => `  ${name.padEnd(14)}${PARTS[name]}`).join("\n")}

A run of some parts keeps what results/latest.json has of the others, if the machine and the sources are the same.
`;

/** @throws {Error} naming the option, the value and what is accepted */
export function readOptions(words: readonly string[]): Options | "help" {
  const { values } = parseArgs({
    args: [...words],
    options: {
      only: { type: "string" },
      rounds: { type: "string", default: "7" },
      trials: { type: "string", default: "1000000" },
      long: { type: "boolean", default: false },
      "no-readme": { type: "boolean", default: false },
      "no-page": { type: "boolean", default: false },
      help: { type: "boolean", default: false },
    },
  });
  if (values.help) return "help";
  const only =
    values.only === undefined
      ? partNames
      : values.only
          .split(",")
          .map((word) => word.trim())
          .filter((word) => word !== "");
  for (const name of only)
    if (!(name in PARTS)) throw new Error(`--only: ${JSON.stringify(name)}; accepted are ${partNames.join(", ")}`);
  const trials = whole("--trials", values.trials, 1000, 20_000_000);
  return {
    only: new Set(only as readonly Part[]),
    rounds: whole("--rounds", values.rounds, 3, 1000),
    trials,
    long: values.long,
    readme: !values["no-readme"],
    page: !values["no-page"],
    keep: trials === 1_000_000,
  };
}

function whole(option: string, text: string, least: number, most: number): number {
  const value = Number(text.replaceAll("_", ""));
  if (Number.isInteger(value) && value >= least && value <= most) return value;
  throw new Error(`${option}: ${JSON.stringify(text)}; accepted is a whole number from ${least} to ${most}`);
}
