import { arcSineTable, cubic, fromMiddle, RIGHT, RIGHT_LOW, STEEP, steep } from "./arc-sine-table.ts";
import { HIGH, halves, signs, word } from "./binary.ts";

/** The arc sine of x in radians, at most 0.76 ulp off; NaN beyond ±1. Table and method: arc-sine-table.ts. */
export function asin(x: number): number {
  const size = Math.abs(x);
  if (size < 1 / 16) return size < 2 ** -28 ? x : x + cubic(x);
  if (!(size < STEEP)) return edge(x, size);
  word[0] = x;
  const cell = (size * 64) | 0;
  const place = 4 * cell;
  const low = arcSineTable[place + 2]! + fromMiddle(size, cell, arcSineTable[place]!);
  return (arcSineTable[place + 1]! + low) * signs[halves[HIGH]! >>> 31]!;
}

function edge(x: number, size: number): number {
  if (!(size <= 1)) return NaN;
  const value = RIGHT + (RIGHT_LOW - steep(size));
  return x > 0 ? value : -value;
}
