import { normalProbability } from "../numerics/standard-normal.ts";
import { tDistributionFunction } from "../numerics/standard-t.ts";
import type { Sample } from "../statistics/sample.ts";
import type { Tolerance } from "../tolerance.ts";

/** The conformance probability: that a measurand lies in its tolerance, limits included (JCGM 106:2012, 3.3.7 and 7.1). */
export interface ProbabilityOfConformity {
  readonly value: number;
  /** P(Y < lower limit) and P(Y > upper limit), which keep their digits where conformity is almost sure. */
  readonly below: number;
  readonly above: number;
}

/** From a normal distribution of the measurand (JCGM 106:2012, 7.2 to 7.4), or a scaled and shifted t with ν_eff. */
export function conformityOfBudget(
  estimate: number,
  standardUncertainty: number,
  degreesOfFreedom: number,
  { lower, upper }: Tolerance,
): ProbabilityOfConformity {
  const from = lower ?? -Infinity;
  const to = upper ?? Infinity;
  if (standardUncertainty === 0) {
    const [below, above] = [estimate < from ? 1 : 0, estimate > to ? 1 : 0];
    return { value: 1 - below - above, below, above };
  }
  const ν = degreesOfFreedom;
  const a = (from - estimate) / standardUncertainty;
  const b = (to - estimate) / standardUncertainty;
  const [below, above] = [upTo(a, ν), upTo(-b, ν)];
  return { value: ν === Infinity ? normalProbability(a, b) : between(a, b, ν), below, above };
}

/** P(T ≤ x), where x may be infinite. */
const upTo = (x: number, ν: number): number => (Number.isFinite(x) ? tDistributionFunction(x, ν) : x < 0 ? 0 : 1);

/** P(a ≤ T ≤ b), from the tail on the side where it keeps its digits. */
function between(a: number, b: number, ν: number): number {
  if (a > 0) return upTo(-a, ν) - upTo(-b, ν);
  return b < 0 ? upTo(b, ν) - upTo(a, ν) : 1 - upTo(a, ν) - upTo(-b, ν);
}

/**
 * From Monte Carlo model values: the share that lies in the tolerance.
 *
 * @returns also its standard error √(p(1 − p)/M), with p taken as (m + 1)/(M + 2) by Laplace's rule so that it is not 0
 *   where every trial falls on one side
 */
export function conformityOfSample(
  sample: Sample,
  { lower, upper }: Tolerance,
): ProbabilityOfConformity & { readonly standardError: number } {
  const M = sample.count;
  const below = lower === null ? 0 : sample.countUpTo(nextBelow(lower));
  const above = upper === null ? 0 : M - sample.countUpTo(upper);
  const inside = M - below - above;
  const p = (inside + 1) / (M + 2);
  return { value: inside / M, below: below / M, above: above / M, standardError: Math.sqrt((p * (1 - p)) / M) };
}

/** The greatest double less than x: a value on the lower limit conforms. */
function nextBelow(x: number): number {
  if (x === 0) return -Number.MIN_VALUE;
  const bits = new DataView(new ArrayBuffer(8));
  bits.setFloat64(0, x);
  // Doubles of one sign are ordered as their bits are, by magnitude.
  bits.setBigInt64(0, bits.getBigInt64(0) + (x > 0 ? -1n : 1n));
  return bits.getFloat64(0);
}
