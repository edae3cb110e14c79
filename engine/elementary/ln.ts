import { BIAS, HIGH, halves, powersOfTwo, word } from "./binary.ts";
import { FIRST, LN2_HIGH, LN2_LOW, logarithmTable, ROUND_30 } from "./logarithm-table.ts";

/**
 * The natural logarithm of x, at most 0.51 ulp off, or 0.75 ulp within 2^-22 of 1; NaN below 0, −∞ at 0.
 *
 * Table and method: logarithm-table.ts. r = z·v − 1 is computed without error as (zh·v − 1) + zl·v. The first term
 * and the high parts of the logarithms are multiples of 2^-42, so their sum is exact too, and arguments near 1 need no
 * separate method.
 */
export function ln(x: number): number {
  word[0] = x;
  const high = halves[HIGH]!;
  if ((high - 0x00100000) >>> 0 >= 0x7fe00000) return edge(x);
  const distance = high - FIRST;
  const k = distance >> 20;
  const place = (distance >> 11) & 508;
  const v = logarithmTable[place]!;
  const z = x * powersOfTwo[BIAS - k]!;
  const zh = z + ROUND_30 - ROUND_30;
  const rh = zh * v - 1;
  const rl = (z - zh) * v;
  const r = rh + rl;
  const square = r * r;
  // Taylor's series: the first term left out is r^8/8, below 2^-58 of r.
  const series = square * (-1 / 2 + r * (1 / 3) + square * (-1 / 4 + r * (1 / 5) + square * (-1 / 6 + r * (1 / 7))));
  const tail = k * LN2_LOW + logarithmTable[place + 2]!;
  return k * LN2_HIGH + logarithmTable[place + 1]! + rh + (rl + tail + series);
}

/** Everything but positive normal numbers. */
function edge(x: number): number {
  if (x === 0) return -Infinity;
  if (!(x > 0)) return NaN;
  // For subnormal x, 2^1022·x is normal, and its logarithm is small compared with the result.
  return x === Infinity ? x : ln(x * 2 ** 1022) - 1022 * LN2_LOW - 1022 * LN2_HIGH;
}
