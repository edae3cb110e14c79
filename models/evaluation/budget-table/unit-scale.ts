import { conversionBetween, factorBetween, readUnit } from "../../../engine/index.ts";
import { unitName } from "../text/unit-name.ts";

/** Whether two units count temperatures from different zeros, as K and °C do. */
export const otherZero = (from: string, to: string): boolean => (conversionBetween(from, to, false)?.offset ?? 0) !== 0;

/**
 * What a figure in one unit must be multiplied by to be in another, or `null` if they do not go together. Figures of a
 * budget are differences: 1 °C is 1 K.
 */
export function unitFactor(from: string, to: string): number | null {
  if (unitName(from) === unitName(to)) return 1;
  const [a, b] = [readUnit(from), readUnit(to)];
  return a === null || b === null ? null : factorBetween(a, b);
}
