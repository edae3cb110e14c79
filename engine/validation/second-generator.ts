import { normalQuantile } from "../numerics/standard-normal.ts";
import type { MeasurandRecord, RunRecord } from "../record/record.ts";

/** One figure of two runs that differ only in the generator. */
export interface ComparedFigure {
  readonly measurand: string;
  readonly figure: "estimate" | "standard uncertainty" | "lower end" | "upper end";
  readonly first: number;
  readonly second: number;
  /** Standard error of the difference, from both runs. */
  readonly standardError: number;
  /** Difference in standard errors. */
  readonly ratio: number;
}

export interface GeneratorComparison {
  readonly first: string;
  readonly second: string;
  readonly figures: readonly ComparedFigure[];
  /** The ratio that chance exceeds in one of a thousand comparisons of this number of figures. */
  readonly limit: number;
  readonly agree: boolean;
}

/** The ratio that 0.1 % of comparisons exceed by chance, shared among `count` figures (Bonferroni). */
const limitFor = (count: number): number => -normalQuantile(0.001 / (2 * count));

/**
 * Compares two runs of one study made with unrelated generators against their own standard errors: evidence that a
 * result does not depend on the generator.
 */
export function compareGenerators(a: RunRecord, b: RunRecord): GeneratorComparison {
  const figures = Object.entries(a.measurands).flatMap(([name, first]) => figuresOf(name, first, b.measurands[name]!));
  const limit = limitFor(figures.length);
  return {
    first: a.generator.title,
    second: b.generator.title,
    figures,
    limit,
    agree: figures.every(({ ratio }) => Math.abs(ratio) <= limit),
  };
}

function figuresOf(
  measurand: string,
  { monteCarlo: a }: MeasurandRecord,
  { monteCarlo: b }: MeasurandRecord,
): ComparedFigure[] {
  const rows = [
    ["estimate", a.estimate, b.estimate, a.standardErrors.estimate, b.standardErrors.estimate],
    [
      "standard uncertainty",
      a.standardUncertainty,
      b.standardUncertainty,
      a.standardErrors.standardUncertainty,
      b.standardErrors.standardUncertainty,
    ],
    [
      "lower end",
      a.intervals.symmetric[0],
      b.intervals.symmetric[0],
      a.standardErrors.symmetric[0],
      b.standardErrors.symmetric[0],
    ],
    [
      "upper end",
      a.intervals.symmetric[1],
      b.intervals.symmetric[1],
      a.standardErrors.symmetric[1],
      b.standardErrors.symmetric[1],
    ],
  ] as const;
  return rows.flatMap(([figure, first, second, errorA, errorB]) => {
    if (first === null || second === null || errorA === null || errorB === null) return [];
    const standardError = Math.sqrt(errorA * errorA + errorB * errorB);
    return [
      {
        measurand,
        figure,
        first,
        second,
        standardError,
        ratio: standardError === 0 ? 0 : (second - first) / standardError,
      },
    ];
  });
}
