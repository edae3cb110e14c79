import { BIAS, powersOfTwo } from "./binary.ts";
import { scaledExp } from "./exp.ts";
import { exponentialTable, ROUND, STEP_HIGH, STEP_LOW, STEPS_PER_UNIT } from "./exponential-table.ts";

/**
 * The hyperbolic cosine, at most 0.55 ulp off.
 *
 * (e^x + e^-x)/2, both from one reduction by exponential-table.ts, and added in two parts.
 */
export function cosh(x: number): number {
  const size = Math.abs(x);
  if (!(size < 709)) return size < 710.5 ? scaledExp(size, -1) : size * Infinity;
  const steps = size * STEPS_PER_UNIT + ROUND - ROUND;
  const n = steps | 0;
  const r = size - steps * STEP_HIGH - steps * STEP_LOW;
  const up = 2 * (n & 127);
  const down = 2 * (-n & 127);
  const square = r * r;
  const even = square * (1 / 2 + square * (1 / 24));
  const odd = r + r * square * (1 / 6 + square * (1 / 120));
  const larger = exponentialTable[up]! * powersOfTwo[BIAS - 1 + (n >> 7)]!;
  const smaller = exponentialTable[down]! * powersOfTwo[BIAS - 1 + (-n >> 7)]!;
  const sum = larger + smaller;
  const lost = larger - sum + smaller;
  return (
    sum +
    (lost + larger * (odd + (even + exponentialTable[up + 1]!)) + smaller * (even + exponentialTable[down + 1]! - odd))
  );
}
