import type { Tolerance } from "../tolerance.ts";

/** The limits between which a measured value is accepted (JCGM 106:2012, 3.3.8 and 3.3.9). `null`: no limit there. */
export interface Acceptance {
  readonly lower: number | null;
  readonly upper: number | null;
}

export type RuleName = "simple acceptance" | "guarded acceptance" | "guarded rejection";

/**
 * The decision rule that a guard band multiplier r makes, in the words of JCGM 106:2012: simple acceptance, also called
 * shared risk (8.2); guarded acceptance, acceptance limits inside the tolerance (8.3.2); guarded rejection, outside
 * (8.3.3).
 */
export const ruleName = (multiplier: number): RuleName =>
  multiplier === 0 ? "simple acceptance" : multiplier > 0 ? "guarded acceptance" : "guarded rejection";

/** The guard bands w at the two limits: above 0 inside the tolerance, below 0 outside. */
export interface GuardBands {
  readonly lower: number;
  readonly upper: number;
}

/**
 * Guard bands w = r·U, where U is at each limit the distance from the estimate to the end of the coverage interval that
 * the rule is about. An accepted value shall not lie below the lower limit (8.3.2), so there the lower end counts; a
 * rejected one shall not lie above it (8.3.3), so for r < 0 the upper end counts. About a symmetric result both are U.
 */
export function guardBandsOf(
  multiplier: number,
  estimate: number,
  [low, high]: readonly [low: number, high: number],
): GuardBands {
  if (multiplier === 0) return { lower: 0, upper: 0 };
  // If the distribution is so skew that the estimate is outside the interval, U at that limit is 0, not negative.
  const below = multiplier * Math.max(0, estimate - low);
  const above = multiplier * Math.max(0, high - estimate);
  return multiplier > 0 ? { lower: below, upper: above } : { lower: above, upper: below };
}

/**
 * The acceptance interval: the tolerance interval with the guard band taken off inside each limit; one below 0 is added
 * outside.
 *
 * @returns `null` if the guard bands leave nothing to accept
 */
export function acceptanceInterval({ lower, upper }: Tolerance, guardBands: GuardBands): Acceptance | null {
  const low = lower === null ? null : lower + guardBands.lower;
  const high = upper === null ? null : upper - guardBands.upper;
  return low !== null && high !== null && low > high ? null : { lower: low, upper: high };
}

/** Whether a measured value lies in the acceptance interval, limits included. */
export const accepts = (acceptance: Acceptance | null, measured: number): boolean =>
  acceptance !== null &&
  (acceptance.lower === null || measured >= acceptance.lower) &&
  (acceptance.upper === null || measured <= acceptance.upper);
