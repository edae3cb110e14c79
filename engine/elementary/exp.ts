import { BIAS, powersOfTwo } from "./binary.ts";
import { exponentialTable, ROUND, STEP_HIGH, STEP_LOW, STEPS_PER_UNIT } from "./exponential-table.ts";

/**
 * e to the power x, at most 0.52 ulp off (1 ulp below 2^-1022, where doubles have fewer bits).
 *
 * Table and method: exponential-table.ts.
 */
export function exp(x: number): number {
  if (!(x > -708 && x < 709)) return edge(x);
  const steps = x * STEPS_PER_UNIT + ROUND - ROUND;
  const n = steps | 0;
  const r = x - steps * STEP_HIGH - steps * STEP_LOW;
  const place = 2 * (n & 127);
  const base = exponentialTable[place]!;
  const square = r * r;
  // Taylor's series: the first term left out is r^6/720, below 2^-60.
  const growth = r + exponentialTable[place + 1]! + square * (1 / 2 + r * (1 / 6) + square * (1 / 24 + r * (1 / 120)));
  return (base + base * growth) * powersOfTwo[BIAS + (n >> 7)]!;
}

/** Over- and underflow, results below 2^-1022, and NaN. */
function edge(x: number): number {
  return x >= 709.79 ? Infinity : x <= -745.14 ? 0 : scaledExp(x, 0);
}

/** e^x·2^shift, scaled in two steps: the whole factor may be out of range although the value is not. */
export function scaledExp(x: number, shift: number): number {
  const steps = x * STEPS_PER_UNIT + ROUND - ROUND;
  const r = x - steps * STEP_HIGH - steps * STEP_LOW;
  const place = 2 * (steps & 127);
  const base = exponentialTable[place]!;
  const growth = r + exponentialTable[place + 1]! + r * r * (1 / 2 + r * (1 / 6) + r * r * (1 / 24 + r * (1 / 120)));
  const e = (steps >> 7) + shift;
  return (base + base * growth) * powersOfTwo[BIAS + (e >> 1)]! * powersOfTwo[BIAS + e - (e >> 1)]!;
}
