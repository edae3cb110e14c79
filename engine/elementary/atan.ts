import { FIRST, arcTangentTable, nearZero, RIGHT, RIGHT_LOW } from "./arc-tangent-table.ts";
import { HIGH, halves, signs, word } from "./binary.ts";

/**
 * The arc tangent of x in radians, at most 0.53 ulp off.
 *
 * Near 0 it uses Taylor's series, far from 0 π/2 − arctan(1/|x|), and between them
 * arctan |x| = arctan c + arctan t with t = (|x| − c)/(1 + c·|x|), |t| < 2^-6.9.
 */
export function atan(x: number): number {
  const size = Math.abs(x);
  if (size < 1 / 16) return nearZero(x);
  if (!(size < 64))
    return x > 0 ? RIGHT + (RIGHT_LOW - nearZero(1 / x)) : x < 0 ? -RIGHT - (RIGHT_LOW + nearZero(1 / x)) : NaN;
  word[0] = x;
  const high = halves[HIGH]!;
  const place = (((high & 0x7fffffff) - FIRST) >> 15) * 4;
  const c = arcTangentTable[place]!;
  const t = (size - c) / (1 + c * size);
  const square = t * t;
  // The terms left out of the series are below 2^-58 of t.
  const series = t * square * (-1 / 3 + square * (1 / 5 - square * (1 / 7)));
  return (arcTangentTable[place + 1]! + (arcTangentTable[place + 2]! + series + t)) * signs[high >>> 31]!;
}
