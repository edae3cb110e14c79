import { nestedScrambling, openScrambling } from "../../../engine/low-discrepancy/scramble.ts";
import { sobolCoordinates } from "../../../engine/low-discrepancy/sobol.ts";
import { blockGenerator } from "../../../engine/random/block-generator.ts";
import { BLOCK_TRIALS } from "../../../engine/random/block.ts";

/** One coordinate of 2^levels scrambled points, drawn block by block as an exploration draws them. */
export function scrambled(seed: string, number: number, dimension: number, levels: number): Float64Array {
  const out = new Float64Array(2 ** levels);
  const coordinates = new Uint32Array(BLOCK_TRIALS);
  const sobol = sobolCoordinates(dimension);
  const scramble = nestedScrambling(openScrambling(blockGenerator, seed, number), dimension, levels);
  for (let first = 0; first < out.length; first += BLOCK_TRIALS) {
    const count = Math.min(BLOCK_TRIALS, out.length - first);
    sobol(first, coordinates, count);
    scramble(coordinates, first, out.subarray(first, first + count), count);
  }
  return out;
}

/** Largest distance of an empirical distribution function from the uniform one. */
export function distanceFromUniform(values: Iterable<number>): number {
  const sorted = Float64Array.from(values).sort();
  return sorted.reduce((most, x, i) => Math.max(most, x - i / sorted.length, (i + 1) / sorted.length - x), 0);
}

/**
 * What that distance exceeds with probability 1e-6 at most for n independent values (P. Massart, Ann. Probab. 18 (1990)
 * 1269–1283: P(D > ε) ≤ 2·exp(−2nε²)).
 */
export const distanceLimit = (n: number): number => Math.sqrt(Math.log(2e6) / (2 * n));

export function correlation(a: ArrayLike<number>, b: ArrayLike<number>): number {
  const n = a.length;
  const mean = (x: ArrayLike<number>): number => Array.from(x).reduce((sum, value) => sum + value, 0) / n;
  const [ma, mb] = [mean(a), mean(b)];
  let [aa, bb, ab] = [0, 0, 0];
  for (let i = 0; i < n; i++) {
    aa += (a[i]! - ma) ** 2;
    bb += (b[i]! - mb) ** 2;
    ab += (a[i]! - ma) * (b[i]! - mb);
  }
  return ab / Math.sqrt(aa * bb);
}
