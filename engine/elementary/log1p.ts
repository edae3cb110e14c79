import { BIAS, HIGH, halves, powersOfTwo, word } from "./binary.ts";
import { FIRST, LN2_HIGH, LN2_LOW, logarithmTable, ROUND_30 } from "./logarithm-table.ts";

/**
 * The natural logarithm of 1 + x, at most 0.52 ulp off, or 0.76 ulp if |x| < 2^-22; NaN below −1, −∞ at −1.
 *
 * It is `ln` of u = 1 + x rounded; the rounding error of u (exact by Knuth's sum of two) is added to the low part.
 */
export function log1p(x: number): number {
  if (Math.abs(x) < 2 ** -54) return x;
  const u = 1 + x;
  word[0] = u;
  const high = halves[HIGH]!;
  // u is never subnormal: its smallest value above 0 is 2^-53.
  if ((high - 0x00100000) >>> 0 >= 0x7fe00000) return u === 0 ? -Infinity : u === Infinity ? u : NaN;
  const added = u - 1;
  const lost = 1 - (u - added) + (x - added);
  const distance = high - FIRST;
  const k = distance >> 20;
  const place = (distance >> 11) & 508;
  const v = logarithmTable[place]!;
  const scale = powersOfTwo[BIAS - k]!;
  const z = u * scale;
  const zh = z + ROUND_30 - ROUND_30;
  const rh = zh * v - 1;
  const rl = (z - zh + lost * scale) * v;
  const r = rh + rl;
  const square = r * r;
  const series = square * (-1 / 2 + r * (1 / 3) + square * (-1 / 4 + r * (1 / 5) + square * (-1 / 6 + r * (1 / 7))));
  const tail = k * LN2_LOW + logarithmTable[place + 2]!;
  return k * LN2_HIGH + logarithmTable[place + 1]! + rh + (rl + tail + series);
}
