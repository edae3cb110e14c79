import { arcSineTable, cubic, fromMiddle, RIGHT, RIGHT_LOW, STEEP, steep } from "./arc-sine-table.ts";
import { HIGH, halves, signs, word } from "./binary.ts";

/**
 * The arc cosine of x in radians, at most 0.6 ulp off; NaN beyond ±1. It is π/2 minus the arc sine, in two parts. Table
 * and method: arc-sine-table.ts.
 */
export function acos(x: number): number {
  const size = Math.abs(x);
  if (size < 1 / 16) return RIGHT - (x + (cubic(x) - RIGHT_LOW));
  if (!(size < STEEP)) return edge(x, size);
  word[0] = x;
  const sign = signs[halves[HIGH]! >>> 31]!;
  const cell = (size * 64) | 0;
  const place = 4 * cell;
  const high = sign * arcSineTable[place + 1]!;
  const low = sign * (arcSineTable[place + 2]! + fromMiddle(size, cell, arcSineTable[place]!));
  const sum = RIGHT - high;
  return sum + (RIGHT - sum - high + (RIGHT_LOW - low));
}

function edge(x: number, size: number): number {
  if (!(size <= 1)) return NaN;
  return x > 0 ? steep(size) : 2 * RIGHT + (2 * RIGHT_LOW - steep(size));
}
