import { refuse } from "../../../engine/index.ts";

/**
 * Reading at zero current from two currents, the warming taken proportional to their squares:
 * R₀ = R₁ − (R₂ − R₁)/((I₂/I₁)² − 1). With I₂ = √2·I₁ this is 2R₁ − R₂ (common practice).
 *
 * Works alike on resistances, ratios and temperatures.
 *
 * @param squares (I₂/I₁)²; not 1: see `squaredCurrentRatio`
 */
export const atZeroCurrent = (first: number, second: number, squares: number): number =>
  first - (second - first) / (squares - 1);

/** (I₂/I₁)² from two currents in one unit. @throws {InputError} a current not greater than 0, or the two equal */
export function squaredCurrentRatio(first: number, second: number): number {
  if (!(first > 0 && first < Infinity)) refuse("currents.first", first, "a current greater than 0");
  if (!(second > 0 && second < Infinity) || second === first) {
    refuse("currents.second", second, "a current greater than 0, different from the first");
  }
  return (second / first) * (second / first);
}
