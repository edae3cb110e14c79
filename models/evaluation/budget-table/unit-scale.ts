import { conversionBetween, factorBetween, readUnit } from "../../../engine/internal.ts";
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

/** Base quantities, and counts of what a display or a scale shows, which every laboratory names in its own way. */
const BASES = new Set(["m", "g", "s", "A", "K", "mol", "cd"]);
const COUNTS = /^(digits?|div|divs|counts?|lsb|skt|ppm|ppb|%|‰|rad|°|dB|1)$/i;

/** True for a unit and not for any word: the reader of units takes an unknown word for another unit. */
export function isKnownUnit(text: string): boolean {
  const name = unitName(text);
  if (COUNTS.test(name) || name === "°C") return true;
  const unit = readUnit(name);
  // K/K and the like have no dimension left.
  const parts = name.split(/[·*/]/);
  if (unit !== null && unit.powers.size === 0 && parts.length > 1) return parts.every(isKnownUnit);
  // K/div and the like: what is not known must stand below or beside what is.
  return unit !== null && [...unit.powers.keys()].some((base) => BASES.has(base));
}
