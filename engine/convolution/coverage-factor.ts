import { monotoneInverse } from "../numerics/monotone-inverse.ts";
import { symmetricOf, type SumDistribution } from "./sum-distribution.ts";

/**
 * The factor k for which ±k·u about the estimate holds the probability p, of a distribution of deviations from it.
 *
 * @param u the standard uncertainty that k multiplies, greater than 0
 */
export function coverageFactorOf(of: SumDistribution, u: number, probability: number): number {
  const outside = (r: number): number => of.upperTail(r) + of.distributionFunction(-r);
  const slope = (r: number): number => (of.discrete ? 0 : of.density(r) + of.density(-r));
  const ends = symmetricOf(of, probability).map(Math.abs);
  // Reaching as far as the further endpoint on both sides holds at least p.
  const furthest = Math.max(...ends);
  const r = monotoneInverse((at) => -outside(at), slope, probability - 1, 0, furthest, (ends[0]! + ends[1]!) / 2);
  return r / u;
}
