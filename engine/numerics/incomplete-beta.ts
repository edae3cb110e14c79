import betainc from "@stdlib/math-base-special-betainc";
import { asin } from "../elementary/index.ts";

/**
 * The regularised incomplete beta function I_x(a, b): the distribution function of a beta quantity.
 *
 * @param y 1 − x, given separately so that neither loses digits
 */
export function lowerBeta(a: number, b: number, x: number, y: number): number {
  if (x <= 0) return 0;
  if (y <= 0) return 1;
  // The library's arc sine case has only absolute accuracy.
  if (a === 0.5 && b === 0.5)
    return x <= y ? (2 / Math.PI) * asin(Math.sqrt(x)) : 1 - (2 / Math.PI) * asin(Math.sqrt(y));
  return x <= y ? betainc(x, a, b) : betainc(y, b, a, true, true);
}
