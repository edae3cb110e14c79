import reduced from "@stdlib/math-base-special-tan";
import {
  CLOSE,
  circle,
  REACH,
  ROUND,
  ROUND_33,
  STEP_FIRST,
  STEP_SECOND,
  STEP_THIRD,
  STEPS_PER_RADIAN,
} from "./circle.ts";
import { quotient } from "./quotient.ts";

/**
 * The tangent of x radians, at most 0.55 ulp off, or 0.9 ulp if circle.ts uses @stdlib. It is sine over cosine, each in
 * two parts. Table and method: circle.ts.
 */
export function tan(x: number): number {
  const size = Math.abs(x);
  if (size < 2 ** -27) return x;
  if (!(size < REACH)) return reduced(x);
  const steps = x * STEPS_PER_RADIAN + ROUND - ROUND;
  const left = x - steps * STEP_FIRST;
  const second = steps * STEP_SECOND;
  const near = left - second;
  if (Math.abs(near) < CLOSE && steps !== 0) return reduced(x);
  const rh = near + ROUND_33 - ROUND_33;
  const rl = near - rh + (left - near - second - steps * STEP_THIRD);
  const r = rh + rl;
  const s = 2 * (steps & 255);
  const c = 2 * ((steps + 64) & 255);
  const sh = circle[s]!;
  const sl = circle[s + 1]!;
  const ch = circle[c]!;
  const cl = circle[c + 1]!;
  const square = r * r;
  const bySine = r * square * (-1 / 6 + square * (1 / 120 - square * (1 / 5040)));
  const byCosine = square * (-1 / 2 + square * (1 / 24 - square * (1 / 720)));
  const up = ch * rh;
  const sine = sh + up;
  const sineLow = sh - sine + up + (sl + (ch * rl + cl * r)) + ((ch + cl) * bySine + (sh + sl) * byCosine);
  const down = sh * rh;
  const cosine = ch - down;
  const cosineLow = ch - cosine - down + (cl - (sh * rl + sl * r)) + ((ch + cl) * byCosine - (sh + sl) * bySine);
  return quotient(sine, sineLow, cosine, cosineLow);
}
