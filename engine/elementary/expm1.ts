import { BIAS, powersOfTwo } from "./binary.ts";
import { exp } from "./exp.ts";
import { exponentialTable, ROUND, STEP_HIGH, STEP_LOW, STEPS_PER_UNIT } from "./exponential-table.ts";

/**
 * e to the power x, minus 1; at most 0.6 ulp off, also for tiny x.
 *
 * Near 0 Taylor's series; elsewhere exponential-table.ts, corrected for the rounding of the subtraction of 1.
 */
export function expm1(x: number): number {
  if (Math.abs(x) < 1 / 16) return nearZero(x);
  if (!(x > -38 && x < 709)) return x <= -38 ? -1 : exp(x);
  const steps = x * STEPS_PER_UNIT + ROUND - ROUND;
  const n = steps | 0;
  const r = x - steps * STEP_HIGH - steps * STEP_LOW;
  const place = 2 * (n & 127);
  const base = exponentialTable[place]! * powersOfTwo[BIAS + (n >> 7)]!;
  const square = r * r;
  const growth = r + exponentialTable[place + 1]! + square * (1 / 2 + r * (1 / 6) + square * (1 / 24 + r * (1 / 120)));
  const less = base - 1;
  // Knuth's sum of two, since either of base and 1 may be the larger.
  const taken = less - base;
  const lost = base - (less - taken) - (1 + taken);
  return less + (lost + base * growth);
}

/** Taylor's series to x^9; the first term left out is below 2^-57 of x. */
function nearZero(x: number): number {
  if (Math.abs(x) < 2 ** -54) return x;
  const square = x * x;
  const series =
    1 / 6 +
    x * (1 / 24) +
    square * (1 / 120 + x * (1 / 720) + square * (1 / 5040 + x * (1 / 40320) + square * (1 / 362880)));
  return x + (square / 2 + square * x * series);
}
