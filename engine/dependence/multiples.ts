import type { Distribution } from "../distributions/distribution.ts";
import type { Matrix } from "../numerics/matrix.ts";

/** Probabilities at which quantiles are held against each other: all over, and far into both tails. */
const PROBABILITIES: readonly number[] = [
  ...[1e-9, 1e-6, 1e-4].flatMap((p) => [p, 1 - p]),
  ...Array.from({ length: 255 }, (_, i) => (i + 1) / 256),
];
/** Difference of two quantiles that counts as rounding, in standard deviations and in parts of their values. */
const OF_DEVIATION = 1e-9;
const OF_VALUE = 8 * Number.EPSILON;

/**
 * Of members that depend on each other completely, and have one shape: the number a_i of each with
 * X_i − E X_i = a_i·(X_0 − E X_0), so that a linear sum of them has that shape too.
 *
 * @param factor of the correlation matrix of the normals behind them
 * @returns `null` where they are not multiples of one another
 */
export function multiplesOfFirst(distributions: readonly Distribution[], factor: Matrix): readonly number[] | null {
  if (!factor.every((row) => Math.abs(row[0]!) === 1 && row.every((weight, j) => j === 0 || weight === 0))) return null;
  const first = distributions[0]!;
  const { mean, standardDeviation: s } = first;
  if (mean === null || !isLength(s)) return null;
  const multiples: number[] = [];
  for (const [i, { mean: own, standardDeviation, quantile }] of distributions.entries()) {
    if (own === null || !isLength(standardDeviation)) return null;
    const sign = factor[i]![0]!;
    const multiple = (sign * standardDeviation) / s;
    const alike = PROBABILITIES.every((p) => {
      const value = quantile(sign > 0 ? p : 1 - p);
      const expected = own + multiple * (first.quantile(p) - mean);
      const rounding = OF_VALUE * (Math.abs(own) + Math.abs(multiple * mean) + Math.abs(value));
      return Math.abs(value - expected) <= OF_DEVIATION * standardDeviation + rounding;
    });
    if (!alike) return null;
    multiples.push(multiple);
  }
  return multiples;
}

const isLength = (s: number | null): s is number => s !== null && Number.isFinite(s) && s > 0;
