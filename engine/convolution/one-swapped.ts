import { coverageFactorOf } from "./coverage-factor.ts";
import type { Linearised } from "./linearised.ts";
import { symmetricOf } from "./sum-distribution.ts";

/** What is asked of a linearised model with one term taken as its normal twin. */
export interface OneSwapped {
  /** Probabilistically symmetric interval, as deviations from the estimate. */
  readonly interval: readonly [low: number, high: number];
  readonly coverageFactor: number;
}

const known = new WeakMap<Linearised, Map<string, OneSwapped>>();

/**
 * The figures of a linearised model with one term taken as its normal twin. Explanation and advice both ask for them: a
 * distribution is built once for both, and not kept, since of many inputs it would fill the memory.
 *
 * @param place of the term
 * @param u that the coverage factor multiplies, not 0
 */
export function oneSwapped(found: Linearised, place: number, u: number, probability: number): OneSwapped {
  let figures = known.get(found);
  if (figures === undefined) known.set(found, (figures = new Map()));
  const key = `${place} ${u} ${probability}`;
  let one = figures.get(key);
  if (one === undefined) {
    const distribution = found.swapped(new Set([place]));
    one = {
      interval: symmetricOf(distribution, probability),
      coverageFactor: coverageFactorOf(distribution, u, probability),
    };
    figures.set(key, one);
  }
  return one;
}
