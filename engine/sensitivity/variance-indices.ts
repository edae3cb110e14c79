import { tQuantile } from "../numerics/standard-t.ts";
import { momentsOf } from "../statistics/moments.ts";
import type { IndexRecord } from "../record/sensitivity.ts";

/** Confidence level of the intervals of indices. */
export const CONFIDENCE = 0.95;

/** Sums of one block, or of several, from which every index follows. Model values are shifted and scaled: see `add`. */
interface Sums {
  trials: number;
  /** Σ and Σ of squares over both sets of draws, A and B. */
  first: number;
  second: number;
  /** By factor: Σ f(B)·(f(A_B) − f(A)). */
  readonly product: Float64Array;
  /** By factor: Σ (f(A_B) − f(A)). */
  readonly difference: Float64Array;
  /** By factor: Σ (f(A_B) − f(A))²/2. */
  readonly square: Float64Array;
}

const noSums = (factors: number): Sums => ({
  trials: 0,
  first: 0,
  second: 0,
  product: new Float64Array(factors),
  difference: new Float64Array(factors),
  square: new Float64Array(factors),
});

/** The results of all sums: the variance in scaled units, the indices by factor, and 1 minus the sum of first orders. */
interface Estimates {
  readonly variance: number;
  readonly firstOrder: Float64Array;
  readonly total: Float64Array;
  readonly interaction: number;
}

/** The variance-based indices of one measurand. */
export interface VarianceIndices {
  readonly standardUncertainty: number;
  readonly firstOrder: readonly IndexRecord[];
  readonly total: readonly IndexRecord[];
  readonly interaction: IndexRecord;
}

/**
 * Estimates first-order and total variance-based indices of one measurand from two independent sets of draws A and B,
 * and A with one factor's draws taken from B (A_B), block by block:
 *
 * - S_i = Σ f(B)·(f(A_B) − f(A))/n/V: A. Saltelli et al., "Variance based sensitivity analysis of model output. Design
 *   and estimator for the total sensitivity index", Comput. Phys. Commun. 181 (2010) 259–270, table 2, (b); with f
 *   centred at its mean, which changes no expectation and keeps the variance small if the mean is far from 0;
 * - T_i = Σ (f(A) − f(A_B))²/2n/V: M. J. W. Jansen, "Analysis of variance designs for model output", Comput. Phys.
 *   Commun. 117 (1999) 35–43; table 2, (f) there;
 * - standard errors by the delete-one-block jackknife (J. W. Tukey 1958; R. G. Miller, Biometrika 61 (1974) 1–15), since
 *   every index is a ratio; intervals with t, its degrees of freedom one less than the number of blocks.
 */
export class IndexEstimator {
  readonly #factors: number;
  readonly #blocks: Sums[] = [];
  #block: Sums;
  #shift = 0;
  #scale = 1;

  constructor(factors: number) {
    this.#factors = factors;
    this.#block = noSums(factors);
  }

  /** Starts a block with the model values of both sets. */
  begin(a: Float64Array, b: Float64Array): void {
    if (this.#blocks.length === 0) {
      // Any constants are valid; with those of the first block, squares neither overflow nor cancel.
      const { count, mean, m2, scale } = momentsOf(a);
      this.#shift = mean;
      this.#scale = m2 > 0 ? Math.sqrt(m2 / count) * scale : 1;
    }
    this.#block = noSums(this.#factors);
    this.#blocks.push(this.#block);
    const shift = this.#shift;
    const scale = this.#scale;
    let first = 0;
    let second = 0;
    for (let i = 0; i < a.length; i++) {
      const p = (a[i]! - shift) / scale;
      const q = (b[i]! - shift) / scale;
      first += p + q;
      second += p * p + q * q;
    }
    this.#block.trials = a.length;
    this.#block.first = first;
    this.#block.second = second;
  }

  /** Adds the model values of A with one factor from B. */
  add(factor: number, a: Float64Array, b: Float64Array, mixed: Float64Array): void {
    const shift = this.#shift;
    const scale = this.#scale;
    let product = 0;
    let difference = 0;
    let square = 0;
    for (let i = 0; i < a.length; i++) {
      const d = (mixed[i]! - a[i]!) / scale;
      product += ((b[i]! - shift) / scale) * d;
      difference += d;
      square += d * d;
    }
    this.#block.product[factor] = product;
    this.#block.difference[factor] = difference;
    this.#block.square[factor] = square / 2;
  }

  /** The indices, or `null` if the measurand does not vary at all. */
  indices(): VarianceIndices | null {
    const all = this.#sum();
    const whole = estimate(all);
    if (!(whole.variance > 0)) return null;
    const without = this.#blocks.map((block) => estimate(combine(all, block, -1)));
    const index = (pick: (estimates: Estimates) => number): IndexRecord => jackknife(pick(whole), without.map(pick));
    const each = Array.from({ length: this.#factors }, (_, i) => i);
    return {
      standardUncertainty: this.#scale * Math.sqrt(whole.variance),
      firstOrder: each.map((i) => index(({ firstOrder }) => firstOrder[i]!)),
      total: each.map((i) => index(({ total }) => total[i]!)),
      interaction: index(({ interaction }) => interaction),
    };
  }

  #sum(): Sums {
    return this.#blocks.reduce((sum, block) => combine(sum, block, 1), noSums(this.#factors));
  }
}

function combine(a: Sums, b: Sums, sign: 1 | -1): Sums {
  const add = (x: Float64Array, y: Float64Array): Float64Array => x.map((value, i) => value + sign * y[i]!);
  return {
    trials: a.trials + sign * b.trials,
    first: a.first + sign * b.first,
    second: a.second + sign * b.second,
    product: add(a.product, b.product),
    difference: add(a.difference, b.difference),
    square: add(a.square, b.square),
  };
}

function estimate({ trials: n, first, second, product, difference, square }: Sums): Estimates {
  const mean = first / (2 * n);
  const variance = (second - first * mean) / (2 * n - 1);
  const firstOrder = product.map((value, i) => (value - mean * difference[i]!) / n / variance);
  return {
    variance,
    firstOrder,
    total: square.map((value) => value / n / variance),
    interaction: 1 - firstOrder.reduce((sum, value) => sum + value, 0),
  };
}

function jackknife(value: number, without: readonly number[]): IndexRecord {
  const blocks = without.length;
  const mean = without.reduce((sum, part) => sum + part, 0) / blocks;
  const squares = without.reduce((sum, part) => sum + (part - mean) * (part - mean), 0);
  const standardError = Math.sqrt(((blocks - 1) / blocks) * squares);
  const reach = tQuantile((1 + CONFIDENCE) / 2, blocks - 1) * standardError;
  return { value, standardError, interval: [value - reach, value + reach] };
}
