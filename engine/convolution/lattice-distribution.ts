import { monotoneInverse } from "../numerics/monotone-inverse.ts";
import type { Lattice } from "./lattice.ts";
import type { SumDistribution } from "./sum-distribution.ts";

/** Points of the interpolation: polynomials of the fifth degree. */
const POINTS = 6;

/**
 * A distribution from the probabilities of a lattice's cells. Its function is known at the edges of the cells and
 * interpolated between them; probabilities are added from both ends, so that either tail keeps its digits.
 *
 * @param cells probability of each cell, the one about 0 first, negative ones from the end
 */
export function latticeDistribution(
  { cells: count, step, halfWidth }: Lattice,
  cells: Float64Array,
  moments: { readonly mean: number; readonly standardDeviation: number },
): SumDistribution {
  const mask = count - 1;
  const half = count / 2;
  /** Probability below and above edge j, which is at (j − half − ½)·step, j = 0 … count. */
  const below = new Float64Array(count + 1);
  const above = new Float64Array(count + 1);
  // Both sums at once: an addition waits for the one before it, and those of the other sum take place meanwhile.
  let [lowest, highest] = [0, 0];
  for (let j = 0, k = count - 1; j < count; j++, k--) {
    below[j + 1] = lowest += cells[(j - half) & mask]!;
    above[k] = highest += cells[(k - half) & mask]!;
  }
  const edge = (j: number): number => (j - half - 0.5) * step;
  const place = (d: number): number => Math.max(0, Math.min(count - 1, Math.floor(d / step + half + 0.5)));
  const clipped = (p: number): number => Math.max(0, Math.min(1, p));
  const lower = (d: number): number =>
    d <= -halfWidth ? 0 : d >= halfWidth ? 1 : interpolate(below, place(d), d / step + half + 0.5);
  const upper = (d: number): number =>
    d <= -halfWidth ? 1 : d >= halfWidth ? 0 : interpolate(above, place(d), d / step + half + 0.5);
  const density = (d: number): number =>
    Math.abs(d) >= halfWidth ? 0 : Math.max(0, slope(below, place(d), d / step + half + 0.5) / step);
  /** The edge from which on `below` is at least p. */
  const search = (reached: (j: number) => boolean): number => {
    let [from, to] = [0, count];
    while (from < to) {
      const middle = (from + to) >>> 1;
      if (reached(middle)) to = middle;
      else from = middle + 1;
    }
    return from;
  };
  const inCell = (j: number, F: (d: number) => number, target: number): number =>
    j === 0 ? edge(0) : monotoneInverse(F, density, target, edge(j - 1), edge(j), (edge(j - 1) + edge(j)) / 2);
  const quantile = (p: number): number =>
    inCell(
      search((j) => below[j]! >= p),
      lower,
      p,
    );
  const upperQuantile = (q: number): number =>
    inCell(
      search((j) => above[j]! <= q),
      (d) => -upper(d),
      -q,
    );
  return {
    ...moments,
    discrete: false,
    density,
    distributionFunction: (d) => clipped(lower(d)),
    upperTail: (d) => clipped(upper(d)),
    quantile: (p) => (p <= 0.5 ? quantile(p) : upperQuantile(1 - p)),
    upperQuantile: (q) => (q <= 0.5 ? upperQuantile(q) : quantile(1 - q)),
  };
}

/** Lagrange's polynomial through six neighbouring values of a table. @param at place in the table, from `cell` to `cell` + 1 */
function interpolate(table: Float64Array, cell: number, at: number): number {
  const first = Math.max(0, Math.min(table.length - POINTS, cell - POINTS / 2 + 1));
  const x = at - first;
  let sum = 0;
  for (let i = 0; i < POINTS; i++) {
    let weight = 1;
    for (let j = 0; j < POINTS; j++) if (j !== i) weight *= (x - j) / (i - j);
    sum += weight * table[first + i]!;
  }
  return sum;
}

/** Slope of the same polynomial per step. */
function slope(table: Float64Array, cell: number, at: number): number {
  const first = Math.max(0, Math.min(table.length - POINTS, cell - POINTS / 2 + 1));
  const x = at - first;
  let sum = 0;
  for (let i = 0; i < POINTS; i++) {
    let derivative = 0;
    for (let left = 0; left < POINTS; left++) {
      if (left === i) continue;
      let product = 1 / (i - left);
      for (let j = 0; j < POINTS; j++) if (j !== i && j !== left) product *= (x - j) / (i - j);
      derivative += product;
    }
    sum += derivative * table[first + i]!;
  }
  return sum;
}
