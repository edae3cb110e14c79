import { refuse } from "../errors.ts";
import { number, positive } from "./distribution.ts";
import { inUnit, ofOne } from "./field-unit.ts";

/** For the linear budget, if the limits are doubtful. */
export const degreesOfFreedomField = {
  degreesOfFreedom: positive()
    .optional()
    .meta(ofOne("For the linear budget only: reliability of the limits (JCGM 100, G.4.2)")),
};

/**
 * Limits as laboratories state them: an estimate with a half-width, or a lower and an upper limit. Either way the
 * degrees of freedom of the linear budget may be given if the limits are doubtful (JCGM 100, G.4.2).
 */
export const limitFields = {
  estimate: number().optional().meta(inUnit("Best estimate: the middle of the limits")),
  halfWidth: positive().optional().meta(inUnit("Half the distance between the limits")),
  lower: number().optional().meta(inUnit("Lower limit")),
  upper: number().optional().meta(inUnit("Upper limit")),
  ...degreesOfFreedomField,
};

export interface StatedLimits {
  readonly estimate?: number | undefined;
  readonly halfWidth?: number | undefined;
  readonly lower?: number | undefined;
  readonly upper?: number | undefined;
}

/** Limits in both forms. `lower` and `upper` are exactly those given, without the rounding of middle ± half-width. */
export interface Limits {
  readonly middle: number;
  readonly halfWidth: number;
  readonly lower: number;
  readonly upper: number;
}

/** Limits from their middle and half-width. */
export const limitsAbout = (middle: number, halfWidth: number): Limits => ({
  middle,
  halfWidth,
  lower: middle - halfWidth,
  upper: middle + halfWidth,
});

/** Limits from lower and upper. Halving first keeps limits near ±1e308 finite. */
export const limitsBetween = (lower: number, upper: number): Limits => ({
  middle: lower / 2 + upper / 2,
  halfWidth: upper / 2 - lower / 2,
  lower,
  upper,
});

/** Limits from either form. @throws {InputError} */
export function readLimits(stated: StatedLimits, place: string): Limits {
  const { estimate, halfWidth, lower, upper } = stated;
  const central = estimate !== undefined || halfWidth !== undefined;
  const limits = lower !== undefined || upper !== undefined;
  if (central && limits) {
    refuse(place, Object.keys(stated).join(", "), "either estimate and halfWidth, or lower and upper, not both");
  }
  if (lower !== undefined && upper !== undefined) {
    checkRising(lower, upper, place);
    return limitsBetween(lower, upper);
  }
  if (estimate !== undefined && halfWidth !== undefined) {
    const about = limitsAbout(estimate, halfWidth);
    if (about.lower < about.upper && Number.isFinite(about.lower) && Number.isFinite(about.upper)) return about;
    return refuse(
      `${place}.halfWidth`,
      halfWidth,
      `a number that changes the estimate (${estimate}) when added to it, and leaves it finite: about 17 digits are kept`,
    );
  }
  const missing = limits
    ? lower === undefined
      ? "lower"
      : "upper"
    : estimate === undefined
      ? "estimate"
      : "halfWidth";
  return refuse(`${place}.${missing}`, undefined, "a number: give estimate and halfWidth, or lower and upper");
}

/** Refuses limits that are equal or reversed. @throws {InputError} */
export function checkRising(lower: number, upper: number, place: string): void {
  if (!(lower < upper)) refuse(`${place}.lower`, lower, `a number less than upper (${upper})`);
}
