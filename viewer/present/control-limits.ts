/** d₂ of two values: their mean range in standard deviations (NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2). */
const D2 = 1.128;
/** Fewest values that limits are drawn from: with fewer they say next to nothing (common practice). */
export const FEWEST_FOR_LIMITS = 6;

/** Part of itself to which a figure is known at most: sensitivity coefficients are derivatives by numbers. */
const ROUNDING = 1e-9;

/** Limits of a control chart of single values. */
export interface ControlLimits {
  readonly centre: number;
  readonly lower: number;
  readonly upper: number;
}

/**
 * Centre and limits of a chart of individual values in their order: mean ± 3 times the mean moving range over d₂
 * (NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2).
 *
 * Values that differ by rounding alone have limits that rounding does not reach.
 *
 * @returns `null` with fewer than `FEWEST_FOR_LIMITS` values
 */
export function controlLimits(values: readonly number[]): ControlLimits | null {
  if (values.length < FEWEST_FOR_LIMITS) return null;
  const first = values[0]!;
  // From the first, so that nearly equal values lose no digits.
  const centre = first + values.reduce((sum, value) => sum + (value - first), 0) / values.length;
  const moving = values.slice(1).reduce((sum, value, i) => sum + Math.abs(value - values[i]!), 0) / (values.length - 1);
  const reach = Math.max((3 * moving) / D2, ROUNDING * Math.abs(centre));
  return { centre, lower: centre - reach, upper: centre + reach };
}
