import { BIAS, powersOfTwo } from "./binary.ts";
import { scaledExp } from "./exp.ts";
import { exponentialTable, ROUND, STEP_HIGH, STEP_LOW, STEPS_PER_UNIT } from "./exponential-table.ts";

/**
 * The hyperbolic sine, at most 0.55 ulp off.
 *
 * Near 0 Taylor's series; elsewhere (e^x − e^-x)/2, both from one reduction by exponential-table.ts, and subtracted in
 * two parts.
 */
export function sinh(x: number): number {
  const size = Math.abs(x);
  if (size < 1 / 4) return nearZero(x);
  if (!(size < 709)) return beyond(x);
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
  const difference = larger - smaller;
  const low =
    larger -
    difference -
    smaller +
    larger * (odd + (even + exponentialTable[up + 1]!)) +
    smaller * (odd - (even + exponentialTable[down + 1]!));
  return x > 0 ? difference + low : -(difference + low);
}

/** If e^|x| may be out of range, e^-|x| is negligible. */
function beyond(x: number): number {
  const size = Math.abs(x);
  const half = size < 710.5 ? scaledExp(size, -1) : size * Infinity;
  return x < 0 ? -half : half;
}

/** Taylor's series to x^13; the first term left out is below 2^-67 of x. */
function nearZero(x: number): number {
  if (Math.abs(x) < 2 ** -28) return x;
  const square = x * x;
  const fourth = square * square;
  const series =
    1 / 6 +
    square * (1 / 120) +
    fourth * (1 / 5040 + square * (1 / 362880) + fourth * (1 / 39916800 + square * (1 / 6227020800)));
  return x + x * square * series;
}
