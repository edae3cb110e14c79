import type { Tolerance } from "./tolerance.ts";

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

/**
 * The acceptance interval: the tolerance interval with the guard band w taken off inside each limit; w < 0 adds it
 * outside.
 *
 * @returns `null` where the guard bands leave nothing to accept
 */
export function acceptanceInterval({ lower, upper }: Tolerance, guardBand: number): Acceptance | null {
  const low = lower === null ? null : lower + guardBand;
  const high = upper === null ? null : upper - guardBand;
  return low !== null && high !== null && low > high ? null : { lower: low, upper: high };
}

/** Whether a measured value lies in the acceptance interval, limits included. */
export const accepts = (acceptance: Acceptance | null, measured: number): boolean =>
  acceptance !== null &&
  (acceptance.lower === null || measured >= acceptance.lower) &&
  (acceptance.upper === null || measured <= acceptance.upper);
