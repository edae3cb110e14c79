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

/**
 * Standard error of the order statistic of a given rank, from the spacing of its neighbours: ranks one standard
 * deviation √(M·a·(1 − a)) away on either side (binomial law of ranks; no density need be estimated).
 */
export function rankStandardError(sample: Sample, rank: number): number {
  const a = rank / sample.count;
  const reach = Math.max(1, Math.round(Math.sqrt(sample.count * a * (1 - a))));
  const low = Math.max(1, rank - reach);
  const high = Math.min(sample.count, rank + reach);
  return high === low ? 0 : ((sample.orderStatistic(high) - sample.orderStatistic(low)) * reach) / (high - low);
}
