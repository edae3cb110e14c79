import type { Coverage } from "../coverage/coverage.ts";
import { spannedRanks, type Interval } from "../coverage/coverage-interval.ts";
import { betaDistribution } from "../distributions/beta.ts";
import { tQuantile } from "../numerics/standard-t.ts";
import type { Estimated, ExploredFigure } from "./exploration.ts";

/** Confidence level of the intervals of figures and gains. */
export const CONFIDENCE = 0.95;

/** The figures of a measurand from one set of model values. */
export interface SetFigures {
  readonly mean: number;
  /** Mean square of the deviations from the set's own mean. */
  readonly scatter: number;
  readonly low: End;
  readonly high: End;
}

/** An endpoint of the coverage interval from one set. */
interface End {
  readonly value: number;
  /** For a symmetric interval, the values that determine the endpoint of all sets together; `null` for the shortest. */
  readonly tail: Tail | null;
}

interface Tail {
  /** The set's smallest values, rising, to beyond the endpoint; for an upper endpoint, of the negated quantity. */
  readonly values: Float64Array;
  /** Number of values of the whole set, times the probability beyond the endpoint. */
  readonly beyond: number;
}

/** The figures of a set, which is sorted in place. */
export function figuresOf(values: Float64Array, { probability, interval }: Coverage): SetFigures {
  const n = values.length;
  values.sort();
  const shift = values[Math.floor(n / 2)]!;
  let sum = 0;
  for (let i = 0; i < n; i++) sum += values[i]! - shift;
  const offset = sum / n;
  let squares = 0;
  for (let i = 0; i < n; i++) {
    const d = values[i]! - shift - offset;
    squares += d * d;
  }
  const moments = { mean: shift + offset, scatter: squares / n };
  if (interval === "shortest") {
    const [low, high] = shortest(values, probability);
    return { ...moments, low: { value: low, tail: null }, high: { value: high, tail: null } };
  }
  const beyond = (n * (1 - probability)) / 2;
  // Twice the mean number beyond the endpoint, plus 16. Even if the set were random, its share of all values beyond the
  // common endpoint would exceed this only with a binomial probability below 10⁻⁹; and all sets' tails fit into memory.
  const kept = Math.min(n, Math.ceil(2 * beyond) + 16);
  const lower: Tail = { values: values.slice(0, kept), beyond };
  const upper: Tail = {
    values: values
      .slice(n - kept)
      .toReversed()
      .map((x) => 0 - x),
    beyond,
  };
  return {
    ...moments,
    low: { value: lowerEnd([lower]), tail: lower },
    high: { value: 0 - lowerEnd([upper]), tail: upper },
  };
}

/**
 * The lower endpoint of the probabilistically symmetric interval of all sets together, at rank nα + ½, interpolated if
 * that is not an integer. Integer ranks (JCGM 101, 7.7.2) may be off by half a rank: negligible compared with the noise
 * of random trials, but not with the smaller noise here.
 */
function lowerEnd(tails: readonly Tail[]): number {
  const all = new Float64Array(tails.reduce((sum, { values }) => sum + values.length, 0));
  let at = 0;
  for (const { values } of tails) {
    all.set(values, at);
    at += values.length;
  }
  all.sort();
  const place = Math.max(0, tails.reduce((sum, { beyond }) => sum + beyond, 0) - 0.5);
  const before = Math.floor(place);
  return all[before]! + (place - before) * (all[before + 1]! - all[before]!);
}

/** Endpoints of the shortest interval (JCGM 101, 7.7.2); the first if several are equally short. */
function shortest(sorted: Float64Array, probability: number): Interval {
  const span = Math.min(sorted.length - 1, spannedRanks(sorted.length, probability));
  let best = 0;
  for (let i = 1; i + span < sorted.length; i++)
    if (sorted[i + span]! - sorted[i]! < sorted[best + span]! - sorted[best]!) best = i;
  return [sorted[best]!, sorted[best + span]!];
}

/** The mean of independent repetitions with its standard error. */
function meanOf(repetitions: readonly number[]): Estimated {
  const n = repetitions.length;
  const first = repetitions[0]!;
  const offset = repetitions.reduce((sum, value) => sum + (value - first), 0) / n;
  const squares = repetitions.reduce((sum, value) => sum + (value - first - offset) * (value - first - offset), 0);
  return { value: first + offset, standardError: Math.sqrt(squares / (n - 1) / n) };
}

/** A figure from the sets of one kind, by name. */
export const estimators = {
  estimate: (sets: readonly SetFigures[]): Estimated => meanOf(sets.map(({ mean }) => mean)),
  /**
   * The scatter within a set is less than u² by the variance of the set's mean. For n random trials that variance is
   * u²/n, hence the division by n − 1; for points that repel one another it is far less. The spread of the sets' means
   * estimates it for both.
   */
  standardUncertainty(sets: readonly SetFigures[]): Estimated {
    const between = meanOf(sets.map(({ mean }) => mean)).standardError;
    const { value, standardError } = meanOf(sets.map(({ scatter }) => scatter + sets.length * between * between));
    const u = Math.sqrt(value);
    return { value: u, standardError: u === 0 ? 0 : standardError / (2 * u) };
  },
  low: (sets: readonly SetFigures[]): Estimated =>
    endOf(
      sets.map(({ low }) => low),
      1,
    ),
  high: (sets: readonly SetFigures[]): Estimated =>
    endOf(
      sets.map(({ high }) => high),
      -1,
    ),
} as const;

/**
 * An endpoint from all sets, with its standard error from their spread. A quantile of n values has a bias of order 1/n,
 * which neither scrambling nor the mean over sets removes: with many sets of few points it exceeds the standard error.
 * The quantile of all values together differs from that mean by this bias only, so it is used. The position of the
 * shortest interval converges with the cube root of the number of values, so the spread of the sets would not apply to
 * all values together; for it the mean is used.
 */
function endOf(ends: readonly End[], sign: 1 | -1): Estimated {
  const mean = meanOf(ends.map(({ value }) => value));
  const tails = ends.flatMap(({ tail }) => (tail === null ? [] : [tail]));
  return tails.length === 0 ? mean : { value: 0 + sign * lowerEnd(tails), standardError: mean.standardError };
}

/** A figure from `repetitions` scramblings, compared with that from the same number of sets of plain trials. */
export function comparedFigure(
  { value, standardError }: Estimated,
  plain: Estimated,
  repetitions: number,
): ExploredFigure {
  const reach = tQuantile((1 + CONFIDENCE) / 2, repetitions - 1) * standardError;
  const ratio = plain.standardError / standardError;
  const gain = standardError > 0 && Number.isFinite(ratio * ratio) ? ratio * ratio : null;
  const F = varianceRatio(repetitions - 1);
  return {
    value,
    standardError,
    interval: [value - reach, value + reach],
    plain,
    gain,
    gainInterval: gain === null ? null : [gain / F, gain * F],
  };
}

/** Upper quantile of F with ν and ν degrees of freedom: B/(1 − B), B a beta variate with shapes ν/2 and ν/2. */
function varianceRatio(ν: number): number {
  const b = betaDistribution(0, 1, ν / 2, ν / 2).quantile((1 + CONFIDENCE) / 2);
  return b / (1 - b);
}
