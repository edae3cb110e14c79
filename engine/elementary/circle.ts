import cosine from "@stdlib/math-base-special-cos";
import sine from "@stdlib/math-base-special-sin";
import {
  cosine as exactCosine,
  exactly,
  nearest,
  onGrid,
  PI,
  quotient,
  ratio,
  rest,
  sine as exactSine,
} from "./fixed-point.ts";

/**
 * The table behind `sin`, `cos` and `tan`: the circle in 256 steps of π/128 (S. Gal and B. Bachelis, An accurate
 * elementary mathematical library for the IEEE floating point standard, ACM TOMS 17(1), 1991, 26–45, with exact
 * arguments in place of theirs).
 *
 * x = n·π/128 + r with |r| < 0.0123; sin x = sin(n·π/128)·cos r + cos(n·π/128)·sin r, without a branch for the quadrant.
 */
const STEP = PI / 128n;
export const STEPS_PER_RADIAN = nearest(quotient(ratio(1, 1), STEP));

/** π/128 in three parts after W. J. Cody and W. Waite; n times the first or second is exact for |n| < 2^24. */
export const STEP_FIRST = onGrid(STEP, 34);
export const STEP_SECOND = onGrid(STEP - exactly(STEP_FIRST), 63);
export const STEP_THIRD = nearest(STEP - exactly(STEP_FIRST) - exactly(STEP_SECOND));

/** Above this, and very close to a multiple of π/128, the @stdlib functions do the reduction (Payne and Hanek's). */
export const REACH = 2 ** 18;
export const CLOSE = 2 ** -30;

/** Adding and then subtracting these rounds to an integer, or to a multiple of 2^-33. */
export const ROUND = 1.5 * 2 ** 52;
export const ROUND_33 = 1.5 * 2 ** 19;

/** sin(n·π/128) as a multiple of 2^-26, and its remainder, for n = 0…255; the cosine is 64 steps further. */
export const circle = new Float64Array(2 * 256);

const sines = Array.from({ length: 65 }, (_, n) =>
  n <= 32 ? exactSine(BigInt(n) * STEP) : exactCosine(BigInt(64 - n) * STEP),
);
for (let n = 0; n < 256; n += 1) {
  const folded = sines[n % 128 <= 64 ? n % 128 : 128 - (n % 128)]!;
  const value = n < 128 ? folded : -folded;
  const high = onGrid(value, 26);
  circle.set([high, rest(value, high)], 2 * n);
}

/** sin(x + quarter·π/2) for |x| < REACH and quarter 0 or 1. */
export function sineOf(x: number, quarter: 0 | 1): number {
  const steps = x * STEPS_PER_RADIAN + ROUND - ROUND;
  const left = x - steps * STEP_FIRST;
  const second = steps * STEP_SECOND;
  const near = left - second;
  if (Math.abs(near) < CLOSE && steps !== 0) return quarter === 0 ? sine(x) : cosine(x);
  // r = rh + rl; the product of rh with a high part of the table is exact.
  const rh = near + ROUND_33 - ROUND_33;
  const rl = near - rh + (left - near - second - steps * STEP_THIRD);
  const r = rh + rl;
  const n = (steps | 0) + 64 * quarter;
  const s = 2 * (n & 255);
  const c = 2 * ((n + 64) & 255);
  const sh = circle[s]!;
  const sl = circle[s + 1]!;
  const ch = circle[c]!;
  const cl = circle[c + 1]!;
  const along = ch * rh;
  const high = sh + along;
  const square = r * r;
  // Taylor's series of sin r − r and cos r − 1: the terms left out are below 2^-66.
  const bySine = r * square * (-1 / 6 + square * (1 / 120 - square * (1 / 5040)));
  const byCosine = square * (-1 / 2 + square * (1 / 24 - square * (1 / 720)));
  return high + (sh - high + along + (sl + (ch * rl + cl * r)) + ((ch + cl) * bySine + (sh + sl) * byCosine));
}
