import { exactly, LN2, logarithm, nearest, onGrid, rest } from "./fixed-point.ts";

/**
 * The table behind `ln`, `log10`, `log1p` and `pow`, after P. T. P. Tang, Table-driven implementation of the logarithm
 * function in IEEE floating-point arithmetic, ACM TOMS 16(4), 1990, 378–400.
 *
 * x = 2^k·z with z in [0.686, 1.375) falls in one of 128 cells by the high word: cell = (high − FIRST) >> 13 & 127,
 * k = (high − FIRST) >> 20. Each cell has a reciprocal v ≈ 1/z of 13 bits, so that r = z·v − 1 is small and exact in
 * two parts; and −ln v in two parts. ln x = k·ln 2 − ln v + ln(1 + r), |r| < 2^-7.8. The cell around 1 has v = 1, so
 * there is no error from the table there.
 */
export const FIRST = 0x3fe60000 - 0x1000;
export const CELLS = 128;

/** Adding and then subtracting this rounds z to a multiple of 2^-30, so that z·v has two exact parts. */
export const ROUND_30 = 1.5 * 2 ** 22;
/** The same for 2^-22, so that the square of the first part is exact too. */
export const ROUND_22 = 1.5 * 2 ** 30;

/** ln 2 = LN2_HIGH + LN2_LOW; k·LN2_HIGH + logarithmHigh is exact for every exponent k. */
export const LN2_HIGH = onGrid(LN2, 42);
export const LN2_LOW = rest(LN2, LN2_HIGH);

/** Each cell has four entries from index 4·cell: v, −ln v as a multiple of 2^-42, the remainder of −ln v, 0. */
export const logarithmTable = new Float64Array(4 * CELLS);

const UNIT = 4096; // v = n/UNIT
const middles = Array.from({ length: CELLS }, (_, cell) => {
  const fraction = (FIRST + 0x1000 + cell * 0x2000) / 2 ** 20;
  const exponent = Math.floor(fraction);
  // High words in [0x3fe…, 0x3ff…) are doubles in [0.5, 1), those above in [1, 2).
  return (1 + (fraction - exponent)) * (exponent === 0x3fe ? 0.5 : 1);
});
const numerators = middles.map((middle) => Math.round(UNIT / middle));
const one = numerators.indexOf(UNIT);
const logs = middles.map(() => 0n);
// The logarithm of the ratio of neighbouring cells, near 1, needs ten terms of the series instead of fifty.
for (let cell = one + 1; cell < CELLS; cell += 1)
  logs[cell] = logs[cell - 1]! + logarithm(numerators[cell - 1]!, numerators[cell]!);
for (let cell = one - 1; cell >= 0; cell -= 1)
  logs[cell] = logs[cell + 1]! + logarithm(numerators[cell + 1]!, numerators[cell]!);
for (let cell = 0; cell < CELLS; cell += 1) {
  const high = onGrid(logs[cell]!, 42);
  logarithmTable.set([numerators[cell]! / UNIT, high, nearest(logs[cell]! - exactly(high))], 4 * cell);
}
