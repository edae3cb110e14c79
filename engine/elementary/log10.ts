import { BIAS, HIGH, halves, powersOfTwo, SPLIT, word } from "./binary.ts";
import { LN10, nearest, onGrid, quotient, ratio, rest } from "./fixed-point.ts";
import { FIRST, LN2_HIGH, LN2_LOW, logarithmTable, ROUND_30 } from "./logarithm-table.ts";

/** 1/ln 10 in two parts, the first of 26 bits. */
const UNIT = quotient(ratio(1, 1), LN10);
const UNIT_NEAREST = nearest(UNIT);
const UNIT_HIGH = onGrid(UNIT, 27);
const UNIT_LOW = rest(UNIT, UNIT_HIGH);

/**
 * The logarithm of x to base 10, at most 0.55 ulp off, and exact for the powers of ten; NaN below 0, −∞ at 0.
 *
 * The natural logarithm in two parts, as in `ln`, times 1/ln 10 in two parts.
 */
export function log10(x: number): number {
  word[0] = x;
  const high = halves[HIGH]!;
  if ((high - 0x00100000) >>> 0 >= 0x7fe00000) return edge(x);
  return logarithm(x, high, 0);
}

/** log10(x·2^below). */
function logarithm(x: number, high: number, below: number): number {
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
  const series = square * (-1 / 2 + r * (1 / 3) + square * (-1 / 4 + r * (1 / 5) + square * (-1 / 6 + r * (1 / 7))));
  const exponent = k + below;
  const w = exponent * LN2_HIGH + logarithmTable[place + 1]!;
  const sum = w + r;
  const low = w - sum + r + (rh - r + rl) + (exponent * LN2_LOW + logarithmTable[place + 2]!) + series;
  const natural = sum + low;
  const first = natural * SPLIT - (natural * SPLIT - natural);
  return (
    first * UNIT_HIGH + ((natural - first) * UNIT_HIGH + (natural * UNIT_LOW + (sum - natural + low) * UNIT_NEAREST))
  );
}

/** Everything but positive normal numbers. */
function edge(x: number): number {
  if (x === 0) return -Infinity;
  if (!(x > 0)) return NaN;
  if (x === Infinity) return x;
  word[0] = x * 2 ** 54;
  return logarithm(word[0], halves[HIGH]!, -54);
}
