import reference from "../workloads/figures.json" with { type: "json" };
import type { Answer, OutputFigures } from "./answer.ts";
import { meanOf } from "./arithmetic.ts";

/** Standard errors that two contestants may be apart. A figure in 1.7 million is, by chance. */
export const ALLOWED = 5;

const FIGURES = [
  "estimate",
  "standardUncertainty",
  "symmetricLow",
  "symmetricHigh",
  "shortestLow",
  "shortestHigh",
] as const;
type Figure = (typeof FIGURES)[number];

interface Known {
  readonly mean: number;
  readonly standardDeviation: number;
}
interface KnownWorkload {
  readonly outputs: readonly Readonly<Record<Figure, Known>>[];
  readonly ellipsoid: Known | null;
}

const workloads = reference.workloads as unknown as Readonly<Record<string, KnownWorkload>>;
/** Trials and runs that the known figures were made from. */
export const KNOWN_TRIALS = reference.trials;
const KNOWN_RUNS = reference.runs;

const figureOf = (output: OutputFigures, figure: Figure): number =>
  ({
    estimate: output.estimate,
    standardUncertainty: output.standardUncertainty,
    symmetricLow: output.symmetric[0],
    symmetricHigh: output.symmetric[1],
    shortestLow: output.shortest[0],
    shortestHigh: output.shortest[1],
  })[figure];

/**
 * Standard error of a figure from one run. All fall as 1/√M but the ends of the shortest interval, which fall as the
 * cube root: the width of the interval is flat about its minimum.
 */
export function standardErrorOf(figure: Figure | "ellipsoid", known: Known, trials: number): number {
  const scale = KNOWN_TRIALS / trials;
  return known.standardDeviation * (figure.startsWith("shortest") ? Math.cbrt(scale) : Math.sqrt(scale));
}

/** One figure of two contestants, or of one and the known one. */
export interface Comparison {
  readonly figure: string;
  readonly difference: number;
  readonly standardError: number;
  readonly agrees: boolean;
}

function compared(
  workload: string,
  trials: number,
  values: (of: (answer: Answer) => number, known: Known) => readonly [difference: number, errors: number],
): Comparison[] {
  const known = workloads[workload];
  if (known === undefined) throw new RangeError(`no known figures of ${workload}`);
  const compare = (
    name: string,
    figure: Figure | "ellipsoid",
    at: Known,
    of: (answer: Answer) => number,
  ): Comparison => {
    const [difference, errors] = values(of, at);
    const standardError = standardErrorOf(figure, at, trials) * errors;
    return {
      figure: `${workload} ${name}`,
      difference,
      standardError,
      agrees: Math.abs(difference) <= ALLOWED * standardError,
    };
  };
  return [
    ...known.outputs.flatMap((output, i) =>
      FIGURES.map((figure) =>
        compare(`measurand ${i + 1} ${figure}`, figure, output[figure], (answer) =>
          figureOf(answer.outputs[i]!, figure),
        ),
      ),
    ),
    ...(known.ellipsoid === null
      ? []
      : [compare("ellipsoid factor", "ellipsoid", known.ellipsoid, ({ ellipsoid }) => ellipsoid!)]),
  ];
}

/** Means over the rounds of two contestants, figure by figure. */
export function compareContestants(a: readonly Answer[], b: readonly Answer[]): Comparison[] {
  const { workload, trials } = a[0]!;
  const errors = Math.sqrt(1 / a.length + 1 / b.length);
  return compared(workload, trials, (of) => [meanOf(a.map(of)) - meanOf(b.map(of)), errors]);
}

/** One answer of `KNOWN_TRIALS` trials beside the known figures, whose own standard error counts too. */
export function compareWithKnown(answer: Answer): Comparison[] {
  if (answer.trials !== KNOWN_TRIALS)
    throw new RangeError(`known figures are of ${KNOWN_TRIALS} trials, not ${answer.trials}`);
  return compared(answer.workload, answer.trials, (of, known) => [
    of(answer) - known.mean,
    Math.sqrt(1 + 1 / KNOWN_RUNS),
  ]);
}
