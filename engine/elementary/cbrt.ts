import { BIAS, HIGH, halves, powersOfTwo, signs, word } from "./binary.ts";
import { exp } from "./exp.ts";
import { ln } from "./ln.ts";

/** 32 cells in each octave from 1 to 8; each has two entries from index 2·cell, 1/c and ∛c of its middle c. */
const CELLS = 96;
const table = new Float64Array(2 * CELLS);
for (let cell = 0; cell < CELLS; cell += 1) {
  const c = ((2 * (cell % 32) + 65) / 64) * (1 << Math.floor(cell / 32));
  // The root need not be exact: it is only a starting value.
  table.set([1 / c, exp(ln(c) / 3)], 2 * cell);
}

/** Adding and then subtracting this rounds to a multiple of 2^-16. */
const ROUND_16 = 1.5 * 2 ** 36;

/**
 * The cube root of x, at most 0.501 ulp off, exact for cubes.
 *
 * x = 2^3q·m with m in [1, 8). The binomial series about the middle of a cell gives t ≈ ∛m, rounded to 17 bits
 * so that t³ is exact. Then ∛m = t·∛(1 + u) with u = (m − t³)/t³, by the same series.
 */
export function cbrt(x: number): number {
  word[0] = x;
  const high = halves[HIGH]!;
  const exponent = (high >> 20) & 2047;
  if (exponent === 0 || exponent === 2047) return x === 0 || x - x !== 0 ? x : cbrt(x * 2 ** 54) * 2 ** -18;
  const third = (exponent * 21846) >> 16; // exponent/3 rounded down; the bias 1023 is 3·341
  const place = (exponent - 3 * third) * 64 + ((high >> 14) & 62);
  const m = Math.abs(x) * powersOfTwo[BIAS + 3 * (341 - third)]!;
  const r = m * table[place]! - 1;
  const start = table[place + 1]!;
  const t = start + start * r * (1 / 3 - r * (1 / 9)) + ROUND_16 - ROUND_16;
  const cube = t * t * t;
  const u = (m - cube) / cube;
  return (t + t * u * (1 / 3 - u * (1 / 9 - u * (5 / 81)))) * (powersOfTwo[BIAS + third - 341]! * signs[high >>> 31]!);
}
