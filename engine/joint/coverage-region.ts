import { spannedRanks } from "../coverage/coverage-interval.ts";
import { cholesky } from "../numerics/cholesky.ts";
import type { Matrix } from "../numerics/matrix.ts";
import { selectOfMany } from "../statistics/select.ts";

/** Trials processed at a time. */
const STRETCH = 1024;

/**
 * Returns a function that writes the squared Mahalanobis distances (y − ȳ)ᵀ U⁻¹ (y − ȳ) of the trials in `columns`, one
 * array per measurand, to `out`.
 *
 * @returns `null` if U is singular: the measurands depend on one another exactly, and no ellipsoid has a volume
 */
export function squaredDistances(
  means: readonly number[],
  covariance: Matrix,
): ((columns: readonly Float64Array[], out: Float64Array) => void) | null {
  const { factor, rank } = cholesky(covariance);
  return rank < means.length ? null : distancesBy(factor, means);
}

/** The squared distances by the factor L of the covariance, U = L·Lᵀ. */
export function distancesBy(
  factor: Matrix,
  means: readonly number[],
): (columns: readonly Float64Array[], out: Float64Array) => void {
  const m = means.length;
  // Two and three measurands are the usual cases, and unrolled code is three times as fast.
  if (m === 2) return (columns, out) => distancesOfTwo(columns, means, factor, out);
  if (m === 3) return (columns, out) => distancesOfThree(columns, means, factor, out);
  const z = means.map(() => new Float64Array(STRETCH));
  return (columns, out) => {
    // One stretch at a time, column by column, so that the working data stay in the cache.
    for (let from = 0; from < out.length; from += STRETCH) {
      const size = Math.min(STRETCH, out.length - from);
      const distances = out.subarray(from, from + size);
      distances.fill(0);
      for (let i = 0; i < m; i++) {
        // Forward substitution: z = L⁻¹(y − ȳ), and the distance is |z|².
        const row = factor[i]!;
        const own = z[i]!;
        centre(own, columns[i]!.subarray(from, from + size), means[i]!);
        for (let j = 0; j < i; j++) takeAway(own, z[j]!, row[j]!, size);
        addSquares(distances, own, 1 / row[i]!);
      }
    }
  };
}

function distancesOfTwo(
  [a, b]: readonly Float64Array[],
  [meanA, meanB]: readonly number[],
  factor: Matrix,
  out: Float64Array,
): void {
  const [scaleA, weightBA, scaleB] = [1 / factor[0]![0]!, factor[1]![0]!, 1 / factor[1]![1]!];
  for (let t = 0; t < out.length; t++) {
    const x = (a![t]! - meanA!) * scaleA;
    const y = (b![t]! - meanB! - weightBA * x) * scaleB;
    out[t] = x * x + y * y;
  }
}

function distancesOfThree(
  [a, b, c]: readonly Float64Array[],
  [meanA, meanB, meanC]: readonly number[],
  factor: Matrix,
  out: Float64Array,
): void {
  const [scaleA, weightBA, scaleB] = [1 / factor[0]![0]!, factor[1]![0]!, 1 / factor[1]![1]!];
  const [weightCA, weightCB, scaleC] = [factor[2]![0]!, factor[2]![1]!, 1 / factor[2]![2]!];
  for (let t = 0; t < out.length; t++) {
    const x = (a![t]! - meanA!) * scaleA;
    const y = (b![t]! - meanB! - weightBA * x) * scaleB;
    const z = (c![t]! - meanC! - weightCA * x - weightCB * y) * scaleC;
    out[t] = x * x + y * y + z * z;
  }
}

function centre(out: Float64Array, column: Float64Array, mean: number): void {
  for (let t = 0; t < column.length; t++) out[t] = column[t]! - mean;
}

function takeAway(out: Float64Array, other: Float64Array, weight: number, size: number): void {
  for (let t = 0; t < size; t++) out[t] = out[t]! - weight * other[t]!;
}

function addSquares(sums: Float64Array, values: Float64Array, scale: number): void {
  for (let t = 0; t < sums.length; t++) {
    const value = values[t]! * scale;
    values[t] = value;
    sums[t] = sums[t]! + value * value;
  }
}

/** max_j |y_j − ȳ_j|/u(y_j) of each trial: the factor with which a hyper-rectangle just contains it. */
export function greatestDeviations(
  columns: readonly Float64Array[],
  means: readonly number[],
  deviations: readonly number[],
  out: Float64Array,
): void {
  out.fill(0);
  columns.forEach((column, i) => {
    if (deviations[i] !== 0) raise(out, column, means[i]!, 1 / deviations[i]!);
  });
}

function raise(greatest: Float64Array, column: Float64Array, mean: number, scale: number): void {
  for (let t = 0; t < greatest.length; t++) {
    greatest[t] = Math.max(greatest[t]!, Math.abs(column[t]! - mean) * scale);
  }
}

/** The value that a share p of `values` do not exceed: the rank of JCGM 102, 7.7. Reorders `values`. */
export function valueCovering(values: Float64Array, probability: number): number {
  return selectOfMany(values, Math.max(1, spannedRanks(values.length, probability)));
}
