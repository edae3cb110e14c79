import type { GeneratorFamily, Substream } from "../random/stream.ts";
import { BLOCK_TRIALS } from "../trials/block.ts";

/** A scrambled coordinate has 52 binary digits, as every uniform number here. */
const CELL = 2 ** -52;
/** Blocks that one coordinate takes of a scrambling's stream: enough for 2²⁰ points. */
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
 * coin of its own for each string of digits before it. Each point is then uniform on the unit cube, the points
 * together are as evenly spread as before, and independent scramblings give independent estimates without bias, from
 * whose spread an honest standard error follows.
 *
 * It is done to the letter, not by a hash: as the points' first `levels` digits are all different, a table of 2^levels
 * places holds the permutation that the coins make; every digit beyond has a coin used once, so that the rest is a
 * uniform number. Numbers have 52 digits and are centred in their cells, so never 0 or 1.
 *
 * Source: A. B. Owen, "Randomly permuted (t,m,s)-nets and (t,s)-sequences", Monte Carlo and Quasi-Monte Carlo Methods in
 * Scientific Computing, Lecture Notes in Statistics 106, 299–317 (1995).
 *
 * @param open the scrambling's own stream (see `openScrambling`)
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

/** The stream of scrambling `number`. No input's name has a space in it, so it is no input's stream. */
export const openScrambling = (
  generator: GeneratorFamily,
  seed: string,
  number: number,
): ((block: number) => Substream) => generator.open(seed, `scrambling ${number}`);

/** Where the coins send each string of `levels` digits. */
function permutation(open: (block: number) => Substream, dimension: number, levels: number): Uint32Array {
  const coins = coinsOf(open, dimension, levels);
  const places = new Uint32Array(1 << levels);
  for (let level = 0; level < levels; level++) {
    const strings = 1 << level;
    // From the last string down: its two continuations are written where only later strings stood.
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

/** One coin for every string of fewer than `levels` digits: 2^levels − 1 bits, 32 of a uniform number. */
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
