import { cos, sin } from "../elementary/index.ts";
import { wasmExports, type WasmMemory } from "../numerics/wasm-module.ts";
import { TRANSFORM_BYTES } from "./transform-bytes.ts";

/**
 * The discrete Fourier transform of real sequences whose length is a power of two, with fixed bits: nothing but + − × and
 * our own sines and cosines. A sequence of length N is taken as N/2 complex numbers (J. W. Cooley, P. A. W. Lewis and
 * P. D. Welch, 1970), which a radix-2 transform of half the length turns.
 */

/** The transform at the frequencies 0 … N/2, or at the first of them. */
export interface Spectrum {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

interface Circle {
  /** cos and sin of 2πk/N for k = 0 … N/2. */
  readonly cosines: Float64Array;
  readonly sines: Float64Array;
  /** Bit-reversed indices of the half-length transform. */
  readonly reversed: Uint32Array;
  /** Room for the N/2 complex numbers of one transform. */
  readonly zr: Float64Array;
  readonly zi: Float64Array;
}

/** What the module in transform.wat exports. Addresses are in bytes. */
interface Turning {
  readonly memory: WasmMemory;
  turn(re: number, im: number, n: number, cosines: number, sines: number, few: number): void;
}

/** Most complex numbers that have room in the memory; tables lie behind both columns, as long as there is room. */
const MOST_POINTS = 65_536;
let used = 16 * MOST_POINTS;

let opened: Turning | null | undefined;
/** This thread's module; `null` where the loops have to do, which give identical bits. */
const turning = (): Turning | null => (opened ??= wasmExports(TRANSFORM_BYTES) as Turning | null);

function tableOf(count: number): Float64Array {
  const buffer = turning()?.memory.buffer;
  if (buffer === undefined || used + 8 * count > buffer.byteLength) return new Float64Array(count);
  used += 8 * count;
  return new Float64Array(buffer, used - 8 * count, count);
}

/** Column 0 or 1 of a transform: what it holds is nobody's once the transform is done. */
function columnOf(which: number, count: number): Float64Array {
  const module = turning();
  if (module === null || count > MOST_POINTS) return new Float64Array(count);
  return new Float64Array(module.memory.buffer, 8 * MOST_POINTS * which, count);
}

/** Tables by length: they depend on nothing else. */
const circles = new Map<number, Circle>();

function circleOf(length: number): Circle {
  const known = circles.get(length);
  if (known !== undefined) return known;
  const half = length / 2;
  const cosines = tableOf(half + 1);
  const sines = tableOf(half + 1);
  // Angles up to π/4 only, so that the rounding of an angle costs no digits of a sine near its zero.
  for (let k = 0; k <= length / 8; k++) {
    const angle = (2 * Math.PI * k) / length;
    const [c, s] = [cos(angle), sin(angle)];
    const quarter = length / 4;
    cosines[k] = sines[quarter - k] = c;
    sines[k] = cosines[quarter - k] = s;
    cosines[half - k] = -c;
    sines[half - k] = s;
    cosines[quarter + k] = -s;
    sines[quarter + k] = c;
  }
  const reversed = new Uint32Array(half);
  for (let i = 1; i < half; i++) reversed[i] = (reversed[i >> 1]! >> 1) | (i & 1 ? half >> 1 : 0);
  const made = { cosines, sines, reversed, zr: columnOf(0, half), zi: columnOf(1, half) };
  circles.set(length, made);
  return made;
}

/**
 * Σ z_j·e^(−2πijk/n) in place, n = length/2 complex numbers in bit-reversed order. Only the first and the last `few`, an even
 * number, need come out.
 */
type Butterflies = (re: Float64Array, im: Float64Array, circle: Pick<Circle, "cosines" | "sines">, few: number) => void;

const butterflies: Butterflies = (re, im, circle, few) => {
  const module = turning();
  const inMemory = (array: Float64Array): boolean => array.buffer === module?.memory.buffer;
  const { cosines, sines } = circle;
  if (module !== null && [re, im, cosines, sines].every(inMemory))
    module.turn(re.byteOffset, im.byteOffset, re.length, cosines.byteOffset, sines.byteOffset, few);
  else butterfliesByLoops(re, im, circle, few);
};

/** The plain loops, which turn all: the reference for the module. */
export const butterfliesByLoops: Butterflies = (re, im, { cosines, sines }) => {
  const n = re.length;
  for (let size = 2; size <= n; size *= 2) {
    const half = size / 2;
    const stride = (2 * n) / size;
    if (size <= SMALL) {
      for (let j = 0, at = 0; j < half; j++, at += stride)
        for (let a = j; a < n; a += size) butterfly(re, im, a, a + half, cosines[at]!, sines[at]!);
      continue;
    }
    // In the order of memory: half of the time at 2¹⁴ points, which leave the first cache.
    for (let from = 0; from < n; from += size)
      for (let a = from, at = 0; a < from + half; a++, at += stride)
        butterfly(re, im, a, a + half, cosines[at]!, sines[at]!);
  }
};

/** Butterflies of up to this size take their sine and cosine once for all. */
const SMALL = 32;

function butterfly(re: Float64Array, im: Float64Array, a: number, b: number, c: number, s: number): void {
  const x = re[b]! * c + im[b]! * s;
  const y = im[b]! * c - re[b]! * s;
  re[b] = re[a]! - x;
  im[b] = im[a]! - y;
  re[a] = re[a]! + x;
  im[a] = im[a]! + y;
}

/**
 * Σ_j a_j·e^(−2πijk/N) for k = 0 … N/2.
 *
 * @param values N real numbers, N a power of two from 8 on
 * @param frequencies how many are wanted, from 0 on
 */
export function realTransform(values: Float64Array, frequencies = values.length / 2 + 1, turn = butterflies): Spectrum {
  const length = values.length;
  const half = length / 2;
  const circle = circleOf(length);
  const { cosines, sines, reversed, zr, zi } = circle;
  for (let j = 0; j < half; j++) {
    const to = reversed[j]!;
    zr[to] = values[2 * j]!;
    zi[to] = values[2 * j + 1]!;
  }
  turn(zr, zi, circle, evenFrom(frequencies));
  const re = new Float64Array(frequencies);
  const im = new Float64Array(frequencies);
  for (let k = 0; k < frequencies; k++) {
    const a = k === half ? 0 : k;
    const b = k === 0 ? 0 : half - k;
    // Even and odd members of the sequence have transforms E and O, the transform is E + e^(−2πik/N)·O.
    const er = (zr[a]! + zr[b]!) / 2;
    const ei = (zi[a]! - zi[b]!) / 2;
    const or = (zi[a]! + zi[b]!) / 2;
    const oi = (zr[b]! - zr[a]!) / 2;
    re[k] = er + (or * cosines[k]! + oi * sines[k]!);
    im[k] = ei + (oi * cosines[k]! - or * sines[k]!);
  }
  return { re, im };
}

const evenFrom = (count: number): number => count + (count % 2);

/**
 * The real sequence of a spectrum: the inverse of `realTransform`.
 *
 * @param frequencies from which on all others are 0
 */
export function inverseRealTransform({ re, im }: Spectrum, frequencies = re.length, turn = butterflies): Float64Array {
  const half = re.length - 1;
  const circle = circleOf(2 * half);
  const { cosines, sines, reversed, zr, zi } = circle;
  // What frequencies of 0 give, to the sign of it.
  zr.fill(0);
  zi.fill(-0);
  for (let k = 0; k < half; k++) {
    if (k >= frequencies && half - k >= frequencies) continue;
    const b = half - k;
    const er = (re[k]! + re[b]!) / 2;
    const ei = (im[k]! - im[b]!) / 2;
    const dr = (re[k]! - re[b]!) / 2;
    const di = (im[k]! + im[b]!) / 2;
    const or = dr * cosines[k]! - di * sines[k]!;
    const oi = di * cosines[k]! + dr * sines[k]!;
    const to = reversed[k]!;
    // The conjugate goes through the same butterflies, and comes out as the conjugate of the inverse.
    zr[to] = er - oi;
    zi[to] = -(ei + or);
  }
  turn(zr, zi, circle, half);
  const values = new Float64Array(2 * half);
  // A power of two: the same as a division.
  const scale = 1 / half;
  for (let j = 0; j < half; j++) {
    values[2 * j] = zr[j]! * scale;
    values[2 * j + 1] = -zi[j]! * scale;
  }
  return values;
}

/** sin(x)/x at x = πk/N for k = 0 … N/2: the transform of a cell of one step. */
export function cellFactors(length: number): Float64Array {
  let factors = cells.get(length);
  if (factors === undefined) {
    const { sines } = circleOf(2 * length);
    factors = Float64Array.from({ length: length / 2 + 1 }, (_, k) =>
      k === 0 ? 1 : sines[k]! / ((Math.PI * k) / length),
    );
    cells.set(length, factors);
  }
  return factors;
}

const cells = new Map<number, Float64Array>();
