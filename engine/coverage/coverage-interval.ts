import { hypot } from "../elementary/index.ts";
import type { Sample } from "../statistics/sample.ts";

/** The endpoints of an interval, lower first. */
export type Interval = readonly [low: number, high: number];

/**
 * How many order statistics a 100p % coverage interval spans: q = pM where that is an integer, else the integer part
 * of pM + ½ (JCGM 101, 7.7.2). A whole pM that binary arithmetic misses by rounding still counts as whole.
 */
export function spannedRanks(trials: number, probability: number): number {
  const exact = probability * trials;
  const whole = Math.round(exact);
  return Math.abs(exact - whole) < 1e-9 * Math.max(1, whole) ? whole : Math.floor(exact + 0.5);
}

/** Lower rank of the probabilistically symmetric interval (JCGM 101, 7.7.2), counted from 1. */
export function symmetricRank(trials: number, spanned: number): number {
  const r = (trials - spanned) / 2;
  return Number.isInteger(r) ? r : Math.floor((trials - spanned + 1) / 2);
}

/** Ranks of the endpoints of the probabilistically symmetric 100p % coverage interval, from 1. */
export function symmetricRanks(trials: number, probability: number): readonly [low: number, high: number] {
  const q = spannedRanks(trials, probability);
  const r = Math.max(1, symmetricRank(trials, q));
  return [r, Math.min(trials, r + q)];
}

/** The probabilistically symmetric 100p % coverage interval (JCGM 101, 7.7.2). */
export function symmetricInterval(sample: Sample, probability: number): Interval {
  const [low, high] = symmetricRanks(sample.count, probability);
  return [sample.orderStatistic(low), sample.orderStatistic(high)];
}

/** The shortest 100p % coverage interval (JCGM 101, 7.7.2); the first if several are equally short. */
export function shortestInterval(sample: Sample, probability: number): Interval {
  const q = spannedRanks(sample.count, probability);
  return q >= sample.count ? [sample.least, sample.greatest] : sample.shortestSpan(q);
}

/** Standard deviations of a rank between which the spacing of values is taken: see `rankStandardError`. */
const REACH = 2;

/**
 * Standard error of the order statistic of a given rank, from the spacing of its neighbours: ranks two standard
 * deviations √(M·a·(1 − a)) away on either side, between which the value lies with 95 % probability whatever the
 * distribution (derived: the number of values below a quantile is binomial, so the two ranks hold the quantile with the probability
 * that a binomial count lies between them).
 * Ranks one standard deviation away know the spacing too poorly: ends at rank 50 then lie beyond 1.96 standard errors in
 * 8 to 9 % of runs, where 5 % are due. As it is, 1.96 standard errors cover 94 to 95 % with 250 values beyond the end, and
 * 92 to 94 % with 50 (`tests/engine/run/standard-error-coverage.long.test.ts`).
 *
 * Where values were counted in bins, the bin's width adds what a uniform error within it has.
 */
export function rankStandardError(sample: Sample, rank: number): number {
  const a = rank / sample.count;
  const deviation = Math.sqrt(sample.count * a * (1 - a));
  const reach = Math.max(1, Math.round(REACH * deviation));
  const low = Math.max(1, rank - reach);
  const high = Math.min(sample.count, rank + reach);
  if (high === low) return 0;
  const [from, to] = sample.orderStatistics([low, high]) as [number, number];
  // Halves, so that no difference of large values overflows.
  const spread = (to / 2 - from / 2) * ((2 * deviation) / (high - low));
  const width = sample.resolution(rank);
  return width === 0 ? spread : hypot(spread, width / ROOT_12);
}

const ROOT_12 = Math.sqrt(12);
