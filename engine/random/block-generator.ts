import seedrandom from "seedrandom";
import { philox4x32 } from "./philox.ts";
import type { GeneratorFamily, Sequence, Substream } from "./stream.ts";
import { drawNormal, edges, finishNormal } from "./ziggurat.ts";

/**
 * The generator that trials are drawn with: sfc32 in four lanes, started by Philox4x32-10 from (seed, input, block).
 *
 * - sfc32 (Chris Doty-Humphrey, PractRand 0.95): 128 bits of state of which 32 are a counter, so that no cycle is
 *   shorter than 2³²; its author reports no anomaly in PractRand to 16 TB nor in BigCrush. NumPy ships its 64-bit
 *   sibling.
 * - Number j of a channel comes from lane j mod 4. Four equal lanes are what a SIMD register holds, so a vector kernel
 *   can give the same bits as this plain one.
 * - Uniforms have 52 random bits and are centred in their cells: (n + ½)·2⁻⁵², exact in a double, never 0 or 1,
 *   symmetric about ½.
 */
const LANES = 4;
const WARM_UP = 12;
const CELL = 2 ** -52;
const HIGH = 2 ** 26;

/** What a Philox counter word is used for, so that no two uses share a counter. */
const LANE_TAG = 0;
const TRIAL_TAG = 0x80000000;

interface InputKey {
  readonly key0: number;
  readonly key1: number;
  readonly counter0: number;
  readonly counter1: number;
}

/** 128 bits from the seed and the input's name by ARC4 key scheduling (seedrandom); once an input, not once a draw. */
function inputKey(seed: string, input: string): InputKey {
  const draw = seedrandom(`trialband/1|${seed.length}|${seed}|${input}`);
  return { key0: draw.int32(), key1: draw.int32(), counter0: draw.int32(), counter1: draw.int32() };
}

class BlockSubstream implements Substream {
  readonly #key: InputKey;
  readonly #start = new Uint32Array(4);
  readonly #sequence: CounterSequence;
  #block = 0;

  constructor(key: InputKey) {
    this.#key = key;
    this.#sequence = new CounterSequence(key);
  }

  at(block: number): this {
    this.#block = block;
    return this;
  }

  /** Starting state of a lane, warmed up so that every state word depends on every key word. */
  #open(channel: number, lane: number): Uint32Array {
    const { key0, key1, counter0, counter1 } = this.#key;
    const start = this.#start;
    // Channel and lane stand in the low bits of a word whose high bits hold the upper half of the block number.
    const upper = Math.floor(this.#block / 2 ** 32);
    philox4x32(start, key0, key1, this.#block, LANE_TAG | (upper << 16) | (channel << 2) | lane, counter0, counter1);
    let a = start[0]! | 0;
    let b = start[1]! | 0;
    let c = start[2]! | 0;
    let d = start[3]! | 0;
    for (let i = 0; i < WARM_UP; i++) {
      const t = (((a + b) | 0) + d) | 0;
      d = (d + 1) | 0;
      a = b ^ (b >>> 9);
      b = (c + (c << 3)) | 0;
      c = (((c << 21) | (c >>> 11)) + t) | 0;
    }
    start[0] = a;
    start[1] = b;
    start[2] = c;
    start[3] = d;
    return start;
  }

  /** The raw words behind a channel, in the order that draws use them: two a draw. For tests of the generator. */
  words(channel: number, out: Uint32Array): void {
    for (let lane = 0; lane < LANES; lane++) {
      const state = this.#open(channel, lane);
      let a = state[0]! | 0;
      let b = state[1]! | 0;
      let c = state[2]! | 0;
      let d = state[3]! | 0;
      for (let i = 2 * lane; i < out.length; i += 2 * LANES) {
        for (let half = 0; half < 2; half++) {
          const word = (((a + b) | 0) + d) | 0;
          d = (d + 1) | 0;
          a = b ^ (b >>> 9);
          b = (c + (c << 3)) | 0;
          c = (((c << 21) | (c >>> 11)) + word) | 0;
          out[i + half] = word;
        }
      }
    }
  }

  uniforms(channel: number, out: Float64Array, count: number): void {
    for (let lane = 0; lane < LANES; lane++) {
      const state = this.#open(channel, lane);
      let a = state[0]! | 0;
      let b = state[1]! | 0;
      let c = state[2]! | 0;
      let d = state[3]! | 0;
      for (let i = lane; i < count; i += LANES) {
        const high = (((a + b) | 0) + d) | 0;
        d = (d + 1) | 0;
        a = b ^ (b >>> 9);
        b = (c + (c << 3)) | 0;
        c = (((c << 21) | (c >>> 11)) + high) | 0;
        const low = (((a + b) | 0) + d) | 0;
        d = (d + 1) | 0;
        a = b ^ (b >>> 9);
        b = (c + (c << 3)) | 0;
        c = (((c << 21) | (c >>> 11)) + low) | 0;
        out[i] = ((high >>> 6) * HIGH + (low >>> 6) + 0.5) * CELL;
      }
    }
  }

  normals(channel: number, out: Float64Array, count: number): void {
    for (let lane = 0; lane < LANES; lane++) {
      const state = this.#open(channel, lane);
      let a = state[0]! | 0;
      let b = state[1]! | 0;
      let c = state[2]! | 0;
      let d = state[3]! | 0;
      for (let i = lane; i < count; i += LANES) {
        const high = (((a + b) | 0) + d) | 0;
        d = (d + 1) | 0;
        a = b ^ (b >>> 9);
        b = (c + (c << 3)) | 0;
        c = (((c << 21) | (c >>> 11)) + high) | 0;
        const low = (((a + b) | 0) + d) | 0;
        d = (d + 1) | 0;
        a = b ^ (b >>> 9);
        b = (c + (c << 3)) | 0;
        c = (((c << 21) | (c >>> 11)) + low) | 0;
        // Bits 0–7 of the first word choose the layer; its other 24, signed, and 26 of the second give the position.
        const layer = high & 255;
        const x = ((high >> 8) * HIGH + (low >>> 6) + 0.5) * POSITION_CELL * edges[layer]!;
        out[i] =
          x < edges[layer + 1]! && -x < edges[layer + 1]!
            ? x
            : finishNormal(layer, x, this.#sequence.at(this.#block, channel, i).uniform);
      }
    }
  }

  sequence(channel: number, index: number): Sequence {
    return this.#sequence.at(this.#block, channel, index);
  }
}

/** 24 signed bits over 26 more: positions (n + ½)·2⁻⁴⁹ on (−1, 1). */
const POSITION_CELL = 2 ** -49;

/** A trial's own sequence: Philox as a counter generator, so that it costs nothing until it is needed. */
class CounterSequence implements Sequence {
  readonly #key: InputKey;
  readonly #words = new Uint32Array(4);
  #block = 0;
  #place = 0;
  #step = 0;
  #left = 0;

  constructor(key: InputKey) {
    this.#key = key;
  }

  at(block: number, channel: number, index: number): this {
    this.#block = block;
    // 31 bits: 12 for the index within a block, 5 for the channel, 14 for the step.
    this.#place = (channel << 12) | index;
    this.#step = 0;
    this.#left = 0;
    return this;
  }

  readonly uniform = (): number => {
    if (this.#left === 0) {
      const { key0, key1, counter0, counter1 } = this.#key;
      const upper = Math.floor(this.#block / 2 ** 32);
      philox4x32(
        this.#words,
        key0,
        key1,
        this.#block,
        TRIAL_TAG | (this.#step << 17) | this.#place,
        counter0 ^ upper,
        counter1,
      );
      this.#step = (this.#step + 1) & 0x3fff;
      this.#left = 4;
    }
    this.#left -= 2;
    return ((this.#words[this.#left]! >>> 6) * HIGH + (this.#words[this.#left + 1]! >>> 6) + 0.5) * CELL;
  };

  readonly normal = (): number => drawNormal(this.uniform);
}

/** The raw words of a block's channel 0, for tests of the generator. `out` has an even length. */
export function rawWords(seed: string, input: string): (block: number, out: Uint32Array) => void {
  const substream = new BlockSubstream(inputKey(seed, input));
  return (block, out) => substream.at(block).words(0, out);
}

export const blockGenerator: GeneratorFamily = {
  id: "sfc32x4-philox",
  title: "sfc32 (Doty-Humphrey, PractRand) in four lanes, started by Philox4x32-10 (Salmon et al., SC11 2011)",
  open(seed, input) {
    const substream = new BlockSubstream(inputKey(seed, input));
    return (block) => substream.at(block);
  },
};
