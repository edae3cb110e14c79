import { ln } from "../elementary/index.ts";
import type { Sample } from "./sample.ts";

/** Most values of a tail that are used, and fewest that give an estimate. */
const MOST = 2000;
const FEWEST = 50;

/**
 * The power α with which the heavier tail of a sample falls off, P(|X| > x) ∝ x^−α, from the outermost √M values at
 * either end and their distances from the median; moments of order α and above do not exist. A normal gives some 10,
 * a t about ν. Its standard error is α/√k for k values.
 *
 * Source: B. M. Hill, "A simple general approach to inference about the tail of a distribution", Ann. Statist. 3(5),
 * 1975, 1163–1174 (abstract and citation seen).
 *
 * @returns `Infinity` where there are too few values, or a tail has no distance
 */
export function tailIndex(sample: Sample): number {
  const { count } = sample;
  const k = Math.min(MOST, Math.floor(Math.sqrt(count)));
  if (k < FEWEST) return Infinity;
  const outermost = Array.from({ length: k + 1 }, (_, i) => i + 1);
  const median = sample.orderStatistic(Math.ceil(count / 2));
  const low = sample.nearOrderStatistics(outermost).map((x) => median / 2 - x / 2);
  const high = sample
    .nearOrderStatistics(outermost.map((rank) => count - rank + 1).toReversed())
    .map((x) => x / 2 - median / 2)
    .toReversed();
  return Math.min(indexOf(low), indexOf(high));
}

/** Hill's estimate from distances, the farthest first; the last is where the tail begins. */
function indexOf(distances: readonly number[]): number {
  const begin = distances.at(-1)!;
  if (!(begin > 0)) return Infinity;
  let sum = 0;
  for (let i = 0; i + 1 < distances.length; i++) sum += Math.max(0, ln(distances[i]! / begin));
  return sum === 0 ? Infinity : (distances.length - 1) / sum;
}
