import type { OrderedSample } from "../statistics/ordered-sample.ts";

/** The ends of an interval, lower first. */
export type Interval = readonly [low: number, high: number];

/**
 * How many order statistics a 100p % coverage interval spans: q = pM where that is an integer, else the integer part
 * of pM + ½ (JCGM 101, 7.7.1). A whole pM that binary arithmetic misses by rounding still counts as whole.
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

/** The probabilistically symmetric 100p % coverage interval (JCGM 101, 7.7.2). */
export function symmetricInterval(sample: OrderedSample, probability: number): Interval {
  const q = spannedRanks(sample.count, probability);
  const r = Math.max(1, symmetricRank(sample.count, q));
  return [sample.orderStatistic(r), sample.orderStatistic(Math.min(sample.count, r + q))];
}

/** The shortest 100p % coverage interval (JCGM 101, 7.7.3); the first, where several are equally short. */
export function shortestInterval(sample: OrderedSample, probability: number): Interval {
  const q = spannedRanks(sample.count, probability);
  const starts = sample.count - q;
  if (starts < 1) return [sample.least, sample.greatest];
  const low = sample.lowest(starts);
  const high = sample.highest(starts);
  let best = 0;
  for (let i = 1; i < starts; i++) if (high[i]! - low[i]! < high[best]! - low[best]!) best = i;
  return [low[best]!, high[best]!];
}

/**
 * Standard error of the order statistic of a given rank, from the spacing of its neighbours: ranks one standard
 * deviation √(M·a·(1 − a)) away on either side (binomial law of ranks; no density need be estimated).
 */
export function rankStandardError(sample: OrderedSample, rank: number): number {
  const a = rank / sample.count;
  const reach = Math.max(1, Math.round(Math.sqrt(sample.count * a * (1 - a))));
  const low = Math.max(1, rank - reach);
  const high = Math.min(sample.count, rank + reach);
  return high === low ? 0 : ((sample.orderStatistic(high) - sample.orderStatistic(low)) * reach) / (high - low);
}
