import { InputError, refuse, show } from "../errors.ts";
import { number, positive } from "./distribution.ts";

/**
 * Limits as laboratories state them: an estimate with a half-width, or a lower and an upper limit. Either way the
 * degrees of freedom of the linear budget may be given where the limits themselves are doubtful (JCGM 100, G.4.2).
 */
export const limitFields = {
  estimate: number().optional().describe("Best estimate: the middle of the limits"),
  halfWidth: positive().optional().describe("Half the distance between the limits"),
  lower: number().optional().describe("Lower limit"),
  upper: number().optional().describe("Upper limit"),
  degreesOfFreedom: positive()
    .optional()
    .describe("For the linear budget only: reliability of the limits (JCGM 100, G.4.2)"),
};

export interface StatedLimits {
  readonly estimate?: number | undefined;
  readonly halfWidth?: number | undefined;
  readonly lower?: number | undefined;
  readonly upper?: number | undefined;
}

/** Middle and half-width from either way of stating limits. @throws {InputError} */
export function readLimits(stated: StatedLimits, place: string): { middle: number; halfWidth: number } {
  const { estimate, halfWidth, lower, upper } = stated;
  const central = estimate !== undefined || halfWidth !== undefined;
  const limits = lower !== undefined || upper !== undefined;
  if (central && limits) {
    refuse(place, Object.keys(stated).join(", "), "either estimate and halfWidth, or lower and upper, not both");
  }
  if (lower !== undefined && upper !== undefined) {
    if (!(lower < upper)) {
      throw new InputError([
        { place: `${place}.lower`, value: show(lower), accepted: `a number less than upper (${show(upper)})` },
      ]);
    }
    // Halving first keeps limits near ±1e308 finite.
    return { middle: lower / 2 + upper / 2, halfWidth: upper / 2 - lower / 2 };
  }
  if (estimate !== undefined && halfWidth !== undefined) return { middle: estimate, halfWidth };
  const missing = limits ? (lower === undefined ? "lower" : "upper") : estimate === undefined ? "estimate" : "halfWidth";
  return refuse(`${place}.${missing}`, undefined, "a number: give estimate and halfWidth, or lower and upper");
}
