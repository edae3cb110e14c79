/**
 * The parts of a double: its high word, which holds sign, exponent and the first 20 bits of the fraction, and powers of
 * two to scale by.
 */

/** x·SPLIT − (x·SPLIT − x) is x rounded to 26 bits (T. J. Dekker, Numerische Mathematik 18, 1971, 224–242). */
export const SPLIT = 2 ** 27 + 1;

/** Gives the high word of a double: set `word[0] = x`, then read `halves[HIGH]`. */
export const word = new Float64Array(new ArrayBuffer(8));
export const halves = new Int32Array(word.buffer);

word[0] = 1;
/** Index of the high word, 0x3ff00000 for the double 1: 1 on a little-endian machine. */
export const HIGH: 0 | 1 = halves[1] === 0x3ff00000 ? 1 : 0;

/** `powersOfTwo[BIAS + e]` is 2^e for −1074 ≤ e ≤ 1023. Assembling it from words would stall a processor. */
export const BIAS = 1074;
export const powersOfTwo = new Float64Array(BIAS + 1024);
for (let e = 0; e < 1024; e += 1) powersOfTwo[BIAS + e] = e === 0 ? 1 : 2 * powersOfTwo[BIAS + e - 1]!;
for (let e = -1; e >= -BIAS; e -= 1) powersOfTwo[BIAS + e] = powersOfTwo[BIAS + e + 1]! / 2;

/** `signs[high >>> 31]` for a high word: 1 or −1, without a branch that could be mispredicted. */
export const signs = new Float64Array(new ArrayBuffer(16));
signs.set([1, -1]);
