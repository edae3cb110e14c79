import { spannedRanks } from "../coverage/coverage-interval.ts";
import { cholesky } from "../matrix/cholesky.ts";
import type { Matrix } from "../matrix/matrix.ts";

/**
 * Squared Mahalanobis distances of the columns' trials from `means`: (y − ȳ)ᵀ U⁻¹ (y − ȳ).
 *
 * @returns `null` where U is singular: the measurands depend on one another exactly, and no ellipsoid has a volume
 */
export function squaredDistances(columns: readonly Float64Array[], means: readonly number[], covariance: Matrix): Float64Array | null {
  const { factor, rank } = cholesky(covariance);
  const m = columns.length;
  if (rank < m) return null;
  const count = columns[0]!.length;
  const distances = new Float64Array(count);
  const z = new Float64Array(m);
  for (let t = 0; t < count; t++) {
    let sum = 0;
    for (let i = 0; i < m; i++) {
      // Forward substitution: z = L⁻¹(y − ȳ), and the distance is |z|².
      let value = columns[i]![t]! - means[i]!;
      const row = factor[i]!;
      for (let j = 0; j < i; j++) value -= row[j]! * z[j]!;
      value /= row[i]!;
      z[i] = value;
      sum += value * value;
    }
    distances[t] = sum;
  }
  return distances;
}

/** max_j |y_j − ȳ_j|/u(y_j) of each trial: what a hyper-rectangle must reach to hold it. */
export function greatestDeviations(columns: readonly Float64Array[], means: readonly number[], deviations: readonly number[]): Float64Array {
  const greatest = new Float64Array(columns[0]!.length);
  columns.forEach((column, i) => {
    const deviation = deviations[i]!;
    if (deviation === 0) return;
    for (let t = 0; t < column.length; t++) {
      const e = Math.abs(column[t]! - means[i]!) / deviation;
      if (e > greatest[t]!) greatest[t] = e;
    }
  });
  return greatest;
}

/** The value that a share p of `values` do not exceed: the rank of JCGM 102, 7.7. Sorts `values`. */
export function valueCovering(values: Float64Array, probability: number): number {
  values.sort();
  return values[Math.max(0, spannedRanks(values.length, probability) - 1)]!;
}
