import type { GeneratorFamily, Substream } from "../random/stream.ts";
import { BLOCK_TRIALS } from "../random/block.ts";

/** A scrambled coordinate has 52 binary digits, like every uniform number here. */
const CELL = 2 ** -52;
/** Blocks of a scrambling's stream per coordinate: enough for 2²⁰ points. */
const BLOCKS = 1024;
const FLIP_CHANNEL = 0;
const LOWER_CHANNEL = 1;

/**
 * Scrambles the coordinates of points `first` … `first + count − 1`, `first` a whole number of blocks, to numbers on
 * the open interval (0, 1).
 */
export type Scrambling = (coordinates: Uint32Array, first: number, out: Float64Array, count: number) => void;

/**
 * Nested uniform scrambling of one coordinate of 2^levels Sobol' points: every binary digit is flipped, or not, by a
 * separate random bit (coin) for each string of preceding digits. Each point is then uniform on the unit cube, the
 * points together are as evenly spread as before, and independent scramblings give independent unbiased estimates,
 * whose spread gives a valid standard error.
 *
 * The scrambling is exact, not by a hash. The first `levels` digits of the points are all different, so a table of
 * 2^levels entries contains the permutation that the coins make; every further digit has a coin that is used once, so
 * these digits are a uniform number. Numbers have 52 digits and lie in the middle of their cells, so never at 0 or 1.
 *
 * Source: A. B. Owen, "Randomly permuted (t,m,s)-nets and (t,s)-sequences", Monte Carlo and Quasi-Monte Carlo Methods in
 * Scientific Computing, Lecture Notes in Statistics 106, 299–317 (1995).
 *
 * @param open the stream of the scrambling (see `openScrambling`)
 * @param levels from 1 to 20
 */
export function nestedScrambling(open: (block: number) => Substream, dimension: number, levels: number): Scrambling {
  const places = permutation(open, dimension, levels);
  const lower = new Float64Array(BLOCK_TRIALS);
  const within = 2 ** 52 / (1 << levels);
  return (coordinates, first, out, count) => {
    open(dimension * BLOCKS + first / BLOCK_TRIALS).uniforms(LOWER_CHANNEL, lower, count);
    for (let i = 0; i < count; i++) {
      const place = places[coordinates[i]! >>> (32 - levels)]!;
      out[i] = (place * within + Math.floor(lower[i]! * within) + 0.5) * CELL;
    }
  };
}

/** The stream of scrambling `number`. No input's name contains a space, so no input has the same stream. */
export const openScrambling = (
  generator: GeneratorFamily,
  seed: string,
  number: number,
): ((block: number) => Substream) => generator.open(seed, `scrambling ${number}`);

/** The image of each string of `levels` digits under the coins. */
function permutation(open: (block: number) => Substream, dimension: number, levels: number): Uint32Array {
  const coins = coinsOf(open, dimension, levels);
  const places = new Uint32Array(1 << levels);
  for (let level = 0; level < levels; level++) {
    const strings = 1 << level;
    // From the last string down: its two continuations overwrite only entries of later strings, which are done.
    for (let string = strings - 1; string >= 0; string--) {
      const coin = strings - 1 + string;
      const flip = (coins[coin >>> 5]! >>> (coin & 31)) & 1;
      const place = 2 * places[string]!;
      places[2 * string] = place + flip;
      places[2 * string + 1] = place + 1 - flip;
    }
  }
  return places;
}

/** One coin for every string of fewer than `levels` digits: 2^levels − 1 bits, 32 from each uniform number. */
function coinsOf(open: (block: number) => Substream, dimension: number, levels: number): Uint32Array {
  const words = Math.max(1, (1 << levels) / 32);
  const coins = new Uint32Array(words);
  const uniforms = new Float64Array(BLOCK_TRIALS);
  for (let done = 0; done < words; done += BLOCK_TRIALS) {
    const count = Math.min(BLOCK_TRIALS, words - done);
    open(dimension * BLOCKS + done / BLOCK_TRIALS).uniforms(FLIP_CHANNEL, uniforms, count);
    for (let i = 0; i < count; i++) coins[done + i] = Math.floor(uniforms[i]! * 2 ** 32);
  }
  return coins;
}
