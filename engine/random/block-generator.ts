import seedrandom from "seedrandom";
import { openKernel, type Kernel } from "./kernel/kernel.ts";
import { philox4x32 } from "./philox.ts";
import type { GeneratorFamily, Sequence, Substream } from "./stream.ts";
import { BLOCK_TRIALS } from "./block.ts";
import { drawNormal, edges, finishNormal, LAYERS } from "./ziggurat.ts";

/**
 * The usual generator of trials: sfc32 in four lanes, initialised by Philox4x32-10 from (seed, input, block).
 *
 * - sfc32 (Chris Doty-Humphrey, PractRand 0.95): 128 bits of state of which 32 are a counter, so that no cycle is
 *   shorter than 2³²; it passes BigCrush, and PractRand to 16 TiB (results of the test suite SmokeRand, A. L. Voskov).
 *   NumPy includes its 64-bit version.
 * - Number j of a channel comes from lane j mod 4. A SIMD register has four lanes: kernel/ fills blocks with them if the
 *   host supports it, and its numbers are identical, bit for bit, to those of the plain loops here.
 * - Uniforms have 52 random bits and lie in the middle of their cells: (n + ½)·2⁻⁵², exact in a double, never 0 or 1,
 *   symmetric about ½.
 */
const LANES = 4;
const WARM_UP = 12;
const CELL = 2 ** -52;
const HIGH = 2 ** 20;

/** The uses of a Philox counter word; each has a tag, so that no two uses share a counter. */
const LANE_TAG = 0;
const TRIAL_TAG = 0x80000000;

interface InputKey {
  readonly key0: number;
  readonly key1: number;
  readonly counter0: number;
  readonly counter1: number;
}

/** 128 bits from the seed and the input's name by ARC4 key scheduling (seedrandom); called once per input. */
function inputKey(seed: string, input: string): InputKey {
  const draw = seedrandom(`trialband/1|${seed.length}|${seed}|${input}`);
  return { key0: draw.int32(), key1: draw.int32(), counter0: draw.int32(), counter1: draw.int32() };
}

class BlockSubstream implements Substream {
  readonly #key: InputKey;
  readonly #kernel: Kernel | null;
  readonly #start = new Uint32Array(4);
  readonly #sequence: CounterSequence;
  #block = 0;

  constructor(key: InputKey, kernel: Kernel | null) {
    this.#key = key;
    this.#kernel = kernel;
    this.#sequence = new CounterSequence(key);
  }

  at(block: number): this {
    this.#block = block;
    return this;
  }

  /** The upper half of the block number in the high bits; below it the channel; the lowest bits are left for the lane. */
  #tag(channel: number): number {
    return LANE_TAG | (Math.floor(this.#block / 2 ** 32) << 16) | (channel << 2);
  }

  /** Sets the kernel's lanes to their starting states in a channel. */
  #openLanes(kernel: Kernel, channel: number): void {
    const { key0, key1, counter0, counter1 } = this.#key;
    kernel.open(key0, key1, this.#block, this.#tag(channel), counter0, counter1);
  }

  /** Starting state of a lane, warmed up so that every state word depends on every key word. */
  #open(channel: number, lane: number): Uint32Array {
    const { key0, key1, counter0, counter1 } = this.#key;
    const start = this.#start;
    philox4x32(start, key0, key1, this.#block, this.#tag(channel) | lane, counter0, counter1);
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

  /** The raw words of a channel in the order in which draws use them, two per draw. For tests of the generator. */
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

  uniforms(channel: number, out: Float64Array, count: number, offset = 0, scale = 1): void {
    const kernel = this.#kernel;
    if (kernel !== null && count <= BLOCK_TRIALS) {
      this.#openLanes(kernel, channel);
      const address = kernel.addressOf(out);
      kernel.uniforms(address < 0 ? kernel.scratch : address, count, offset, scale);
      if (address < 0) out.set(kernel.scratchColumn(count));
      return;
    }
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
        out[i] = offset + scale * (((high >>> 0) * HIGH + (low >>> 12) + 0.5) * CELL);
      }
    }
  }

  normals(channel: number, out: Float64Array, count: number, offset = 0, scale = 1): void {
    const kernel = this.#kernel;
    if (kernel !== null && count <= BLOCK_TRIALS) {
      this.#openLanes(kernel, channel);
      const address = kernel.addressOf(out);
      const notes = kernel.normals(address < 0 ? kernel.scratch : address, count, offset, scale);
      if (address < 0) out.set(kernel.scratchColumn(count));
      for (let k = 0; k < notes; k++) {
        const index = kernel.noteWords[4 * k]!;
        // Draws come in fours; those beyond the last trial are discarded.
        if (index >= count) continue;
        const x = finishNormal(
          kernel.noteWords[4 * k + 1]!,
          kernel.noteDoubles[2 * k + 1]!,
          this.#sequence.at(this.#block, channel, index).uniform,
        );
        out[index] = offset + scale * x;
      }
      return;
    }
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
        // The lowest ten bits of the second word choose the layer; the upper 52 of both give the position in it.
        const layer = low & (LAYERS - 1);
        const x = ((high >>> 0) * HIGH + (low >>> 12) - MIDDLE + 0.5) * POSITION_CELL * edges[layer]!;
        const z =
          x < edges[layer + 1]! && -x < edges[layer + 1]!
            ? x
            : finishNormal(layer, x, this.#sequence.at(this.#block, channel, i).uniform);
        out[i] = offset + scale * z;
      }
    }
  }

  sequence(channel: number, index: number): Sequence {
    return this.#sequence.at(this.#block, channel, index);
  }
}

/** Positions (n − 2⁵¹ + ½)·2⁻⁵¹ on (−1, 1). */
const POSITION_CELL = 2 ** -51;
const MIDDLE = 2 ** 51;

/** The sequence of one trial: Philox as a counter generator, which has no cost until it is needed. */
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
    return (this.#words[this.#left]! * HIGH + (this.#words[this.#left + 1]! >>> 12) + 0.5) * CELL;
  };

  readonly normal = (): number => drawNormal(this.uniform);
}

/** The raw words of a block's channel 0, for tests of the generator. `out` has an even length. */
export function rawWords(seed: string, input: string): (block: number, out: Uint32Array) => void {
  const substream = new BlockSubstream(inputKey(seed, input), null);
  return (block, out) => substream.at(block).words(0, out);
}

/** This thread's kernel; `null` if the host supports none. */
let threadKernel: Kernel | null | undefined;
export const kernelOfThread = (): Kernel | null =>
  threadKernel === undefined ? (threadKernel = openKernel(edges, BLOCK_TRIALS)) : threadKernel;

const family = (kernel: () => Kernel | null): GeneratorFamily => ({
  id: "sfc32x4-philox",
  title: "sfc32 (Doty-Humphrey, PractRand) in four lanes, started by Philox4x32-10 (Salmon et al., SC11 2011)",
  open(seed, input) {
    const substream = new BlockSubstream(inputKey(seed, input), kernel());
    return (block) => substream.at(block);
  },
});

export const blockGenerator: GeneratorFamily = family(kernelOfThread);

/** The same numbers by the plain loops alone: the reference for the kernel. */
export const plainBlockGenerator: GeneratorFamily = family(() => null);

let depth = 0;

/**
 * Lends columns of a block's length until `use` returns. They lie in the kernel's memory, where fills are fastest. There
 * is one borrower at a time: a nested call (a model that propagates another) gets newly allocated columns.
 */
export function withColumns<T>(count: number, use: (columns: readonly Float64Array[]) => T): T {
  const kernel = depth === 0 ? kernelOfThread() : null;
  depth += 1;
  try {
    return use(
      kernel === null ? Array.from({ length: count }, () => new Float64Array(BLOCK_TRIALS)) : kernel.columns(count),
    );
  } finally {
    depth -= 1;
  }
}
