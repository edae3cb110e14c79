import { SPLIT } from "./binary.ts";

/**
 * (high + low)/(divisorHigh + divisorLow), with little more than one rounding: the quotient to 26 bits, then the
 * remainder (T. J. Dekker, Numerische Mathematik 18, 1971, 224–242). The low parts are small relative to the high ones.
 */
export function quotient(high: number, low: number, divisorHigh: number, divisorLow: number): number {
  const inverse = 1 / (divisorHigh + divisorLow);
  const divisor = divisorHigh * SPLIT - (divisorHigh * SPLIT - divisorHigh);
  const estimate = high * inverse;
  const first = estimate * SPLIT - (estimate * SPLIT - estimate);
  const left = high - first * divisor + (low - first * (divisorHigh - divisor + divisorLow));
  return first + left * inverse;
}
