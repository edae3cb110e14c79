import { BIAS, powersOfTwo } from "./binary.ts";
import { exponentialTable, ROUND, STEP_HIGH, STEP_LOW, STEPS_PER_UNIT } from "./exponential-table.ts";
import { quotient } from "./quotient.ts";

/**
 * The hyperbolic tangent, at most 0.55 ulp off.
 *
 * Near 0 Taylor's series; elsewhere (e^2x − 1)/(e^2x + 1) by exponential-table.ts, with numerator and denominator in
 * two parts.
 */
export function tanh(x: number): number {
  const size = Math.abs(x);
  if (size < 1 / 8) return nearZero(x);
  if (!(size < 20)) return x > 0 ? 1 : x < 0 ? -1 : NaN;
  const steps = 2 * size * STEPS_PER_UNIT + ROUND - ROUND;
  const n = steps | 0;
  const r = 2 * size - steps * STEP_HIGH - steps * STEP_LOW;
  const place = 2 * (n & 127);
  const base = exponentialTable[place]! * powersOfTwo[BIAS + (n >> 7)]!;
  const square = r * r;
  const growth = r + exponentialTable[place + 1]! + square * (1 / 2 + r * (1 / 6) + square * (1 / 24 + r * (1 / 120)));
  const less = base - 1;
  const more = base + 1;
  const low = base * growth;
  const value = quotient(less, base - less - 1 + low, more, base - more + 1 + low);
  return x > 0 ? value : -value;
}

/** Taylor's series to x^15; the first term left out is below 2^-58 of x. */
function nearZero(x: number): number {
  if (Math.abs(x) < 2 ** -28) return x;
  const square = x * x;
  const fourth = square * square;
  const series =
    -1 / 3 +
    square * (2 / 15) +
    fourth *
      (-17 / 315 +
        square * (62 / 2835) +
        fourth * (-1382 / 155925 + square * (21844 / 6081075) - fourth * (929569 / 638512875)));
  return x + x * square * series;
}
