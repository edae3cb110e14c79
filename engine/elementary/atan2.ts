import { arcTangentTable, FIRST, RIGHT, RIGHT_LOW } from "./arc-tangent-table.ts";
import { HIGH, halves, SPLIT, word } from "./binary.ts";

/**
 * The angle of the point (x, y) in radians, −π to π, at most 0.6 ulp off, with the special values of ECMA-262,
 * Math.atan2.
 *
 * It is `atan` of |y|/|x| by arc-tangent-table.ts, without rounding the quotient, moved to its quadrant in two parts.
 */
export function atan2(y: number, x: number): number {
  const up = Math.abs(y);
  const along = Math.abs(x);
  if (!(Math.max(up, along) < 2 ** 500 && Math.min(up, along) > 2 ** -400)) return edge(y, x, up, along);
  const ratio = up / along;
  word[0] = ratio;
  const cell = (halves[HIGH]! - FIRST) >> 15;
  const alongHigh = along * SPLIT - (along * SPLIT - along);
  let high: number;
  let low: number;
  if (cell < 0) {
    high = ratio * SPLIT - (ratio * SPLIT - ratio);
    low = (up - high * alongHigh - high * (along - alongHigh)) / along + cubic(ratio);
  } else if (cell < 320) {
    const c = arcTangentTable[4 * cell]!;
    const t = (up - c * alongHigh - c * (along - alongHigh)) / (along + c * up);
    const square = t * t;
    high = arcTangentTable[4 * cell + 1]!;
    low = arcTangentTable[4 * cell + 2]! + t * square * (-1 / 3 + square * (1 / 5 - square * (1 / 7))) + t;
  } else {
    const other = along / up;
    high = RIGHT;
    low = RIGHT_LOW - cubic(other) - other;
  }
  if (x < 0) {
    const left = 2 * RIGHT - high;
    low = 2 * RIGHT - left - high + (2 * RIGHT_LOW - low);
    high = left;
  }
  return y > 0 ? high + low : -(high + low);
}

/** arctan q − q for |q| < 1/16: Taylor's series to q^13. */
function cubic(q: number): number {
  const square = q * q;
  const fourth = square * square;
  return (
    q *
    square *
    (-1 / 3 + square * (1 / 5) + fourth * (-1 / 7 + square * (1 / 9) + fourth * (-1 / 11 + square * (1 / 13))))
  );
}

/** Zeros, infinities, NaN, and sizes far from 1. */
function edge(y: number, x: number, up: number, along: number): number {
  if (x !== x || y !== y) return NaN;
  const sign = y < 0 || Object.is(y, -0) ? -1 : 1;
  const behind = x < 0 || Object.is(x, -0);
  if (up === Infinity) return sign * (along < Infinity ? RIGHT : behind ? 1.5 * RIGHT : RIGHT / 2);
  if (up === 0) return behind ? sign * 2 * RIGHT : y;
  // Beyond a ratio of 2^60 the smaller side does not affect the last bit.
  if (up * 2 ** -60 >= along) return sign * RIGHT;
  if (along * 2 ** -60 >= up) return sign * (behind ? 2 * RIGHT : up / along);
  const scale = up > 1 ? 2 ** -600 : 2 ** 600;
  return atan2(y * scale, x * scale);
}
