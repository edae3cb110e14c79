import type { MeasurandRecord, RunRecord } from "../../../engine/index.ts";
import type { ChosenInterval } from "../../api/measurands.ts";
import { distributionOfBudget } from "../../present/budget-distribution.ts";

/** Least and greatest coverage probability on offer. */
const LEAST = 0.5;
const GREATEST = 0.999;

/** Probabilities a reader may slide along: by 5 % at first, finer towards the tails, with the study's own among them. */
export const probabilities = (own: number): number[] =>
  [
    ...new Set([
      0.5,
      0.6,
      0.6827,
      0.7,
      0.75,
      0.8,
      0.85,
      0.9,
      0.92,
      0.94,
      0.95,
      0.96,
      0.97,
      0.98,
      0.985,
      0.99,
      0.995,
      0.998,
      GREATEST,
      own,
    ]),
  ].sort((a, b) => a - b);

/** The probability in a reading, or `null` if it has none that can be used. */
export function probabilityIn(text: string | undefined): number | null {
  const p = Number(text ?? Number.NaN);
  return p >= LEAST && p <= GREATEST ? p : null;
}

type Points = readonly (readonly [probability: number, value: number])[];

/** The value at a probability, by straight lines between the recorded points; an end if it lies beyond them. */
function valueAt(points: Points, p: number): number {
  const after = points.findIndex(([probability]) => probability >= p - 1e-12);
  if (after === 0) return points[0]![1];
  if (after < 0) return points.at(-1)![1];
  const [[p0, v0], [p1, v1]] = [points[after - 1]!, points[after]!];
  return v0 + ((v1 - v0) * (p - p0)) / (p1 - p0);
}

/** Both coverage intervals from the recorded points of the distribution function: near enough until the sample answers. */
export function intervalsFromPoints(points: Points, p: number): ChosenInterval {
  const tail = (1 - p) / 2;
  const symmetric = [valueAt(points, tail), valueAt(points, 1 - tail)] as const;
  let shortest = symmetric;
  for (const [start] of points) {
    if (start + p > points.at(-1)![0]) break;
    const candidate = [valueAt(points, start), valueAt(points, start + p)] as const;
    if (candidate[1] - candidate[0] < shortest[1] - shortest[0]) shortest = candidate;
  }
  return { probability: p, symmetric, shortest };
}

/**
 * The measurand with both intervals at another coverage probability: the budget's with the factor its distribution has
 * there, the Monte Carlo one as given.
 */
export function atProbability(
  measurand: MeasurandRecord,
  { coverage }: RunRecord,
  { probability, symmetric, shortest }: ChosenInterval,
): MeasurandRecord {
  const { linear, monteCarlo } = measurand;
  const k = distributionOfBudget(measurand, coverage.custom).quantile((1 + probability) / 2);
  const U = k * linear.standardUncertainty;
  return {
    ...measurand,
    linear: {
      ...linear,
      coverageFactor: k,
      expandedUncertainty: U,
      interval: [linear.estimate - U, linear.estimate + U],
    },
    monteCarlo: { ...monteCarlo, probability, intervals: { symmetric, shortest } },
  };
}
