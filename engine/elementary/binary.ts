/**
 * The parts of a double: its high word, which holds sign, exponent and the first 20 bits of the fraction, and powers of
 * two to scale by.
 */

/** x·SPLIT − (x·SPLIT − x) is x rounded to 26 bits (T. J. Dekker, Numerische Mathematik 18, 1971, 224–242). */
export const SPLIT = 2 ** 27 + 1;

/** Holds the double whose high word is wanted: `word[0] = x`, then `halves[HIGH]`. */
export const word = new Float64Array(new ArrayBuffer(8));
export const halves = new Int32Array(word.buffer);

word[0] = 1;
/** The place of the high word, 0x3ff00000 for the double 1: 1 on a little-endian machine. */
export const HIGH: 0 | 1 = halves[1] === 0x3ff00000 ? 1 : 0;

/** `powersOfTwo[BIAS + e]` is 2^e for −1074 ≤ e ≤ 1023. A table, because putting the words together stalls a processor. */
export const BIAS = 1074;
export const powersOfTwo = new Float64Array(BIAS + 1024);
for (let e = 0; e < 1024; e += 1) powersOfTwo[BIAS + e] = e === 0 ? 1 : 2 * powersOfTwo[BIAS + e - 1]!;
for (let e = -1; e >= -BIAS; e -= 1) powersOfTwo[BIAS + e] = powersOfTwo[BIAS + e + 1]! / 2;

/** `signs[high >>> 31]` for a high word: 1 or −1, without a branch to guess wrong. */
export const signs = new Float64Array(new ArrayBuffer(16));
signs.set([1, -1]);
