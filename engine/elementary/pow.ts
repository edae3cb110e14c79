import { BIAS, HIGH, halves, powersOfTwo, SPLIT, word } from "./binary.ts";
import { exponentialTable, ROUND, STEP_HIGH, STEP_LOW, STEPS_PER_UNIT } from "./exponential-table.ts";
import { FIRST, LN2_HIGH, LN2_LOW, logarithmTable, ROUND_22 } from "./logarithm-table.ts";

/**
 * x to the power y, at most 0.55 ulp off (1 ulp below 2^-1022, where doubles have fewer bits), with the special values
 * of ECMA-262, Number::exponentiate. A power that a double can represent is exact.
 *
 * exp(y·ln x) with ln x in two parts, relative error about 2^-68: P. T. P. Tang's tables (logarithm-table.ts,
 * exponential-table.ts), with the products split after T. J. Dekker, A floating-point technique for extending the
 * available precision, Numerische Mathematik 18, 1971, 224–242.
 */
export function pow(x: number, y: number): number {
  word[0] = x;
  const high = halves[HIGH]!;
  if ((high - 0x00100000) >>> 0 >= 0x7fe00000) return edge(x, y);
  return power(x, high, 0, y);
}

/** (x·2^below)^y for normal x > 0 with the given high word. */
function power(x: number, high: number, below: number, y: number): number {
  const distance = high - FIRST;
  const place = (distance >> 11) & 508;
  const v = logarithmTable[place]!;
  const z = x * powersOfTwo[BIAS - (distance >> 20)]!;
  const zh = z + ROUND_22 - ROUND_22;
  // r = rh + rl without error; rh has no more than 26 bits, so that its square is exact too.
  const rh = zh * v - 1;
  const rl = (z - zh) * v;
  const r = rh + rl;
  const k = (distance >> 20) + below;
  const w = k * LN2_HIGH + logarithmTable[place + 1]!;
  const first = w + r;
  const half = -0.5 * rh * rh;
  const sum = first + half;
  const cube = r * r * r;
  const series = cube * (1 / 3 - r * (1 / 4) + r * r * (1 / 5 - r * (1 / 6) + r * r * (1 / 7 - r * (1 / 8))));
  const rests = w - first + r + (rh - r + rl) + (first - sum + half) + (k * LN2_LOW + logarithmTable[place + 2]!);
  const low = rests - 0.5 * rl * (rh + r) + series;
  const ln = sum + low;
  return exponential(y, ln, sum - ln + low);
}

/** exp(y·(ln + lnLow)). Separate from `power` because engines inline only short functions. */
function exponential(y: number, ln: number, lnLow: number): number {
  const product = y * ln;
  if (product === 0) return 1;
  if (product > 709.79) return Infinity;
  if (product < -745.14) return 0;
  const yh = y * SPLIT - (y * SPLIT - y);
  const lh = ln * SPLIT - (ln * SPLIT - ln);
  const productLow = yh * lh - product + yh * (ln - lh) + (y - yh) * lh + (y - yh) * (ln - lh) + y * lnLow;

  const steps = product * STEPS_PER_UNIT + ROUND - ROUND;
  const n = steps | 0;
  const s = product - steps * STEP_HIGH - steps * STEP_LOW + productLow;
  const base = exponentialTable[2 * (n & 127)]!;
  const growth =
    s + exponentialTable[2 * (n & 127) + 1]! + s * s * (1 / 2 + s * (1 / 6) + s * s * (1 / 24 + s * (1 / 120)));
  // Scaled in two steps: the whole factor may be out of range although the power is not.
  const e = n >> 7;
  return (base + base * growth) * powersOfTwo[BIAS + (e >> 1)]! * powersOfTwo[BIAS + e - (e >> 1)]!;
}

/** Everything but positive normal x. */
function edge(x: number, y: number): number {
  if (y === 0) return 1;
  if (x !== x || y !== y) return NaN;
  const size = Math.abs(x);
  if (y === Infinity || y === -Infinity) return size === 1 ? NaN : size > 1 === y > 0 ? Infinity : 0;
  const odd = Math.abs(y % 2) === 1;
  const sign = odd && (x < 0 || Object.is(x, -0)) ? -1 : 1;
  if (size === 0) return sign * (y > 0 ? 0 : Infinity);
  if (size === Infinity) return sign * (y > 0 ? Infinity : 0);
  if (x < 0 && y % 1 !== 0) return NaN;
  const below = size < 2 ** -1022 ? -54 : 0;
  word[0] = below === 0 ? size : size * 2 ** 54;
  return sign * power(word[0], halves[HIGH]!, below, y);
}
