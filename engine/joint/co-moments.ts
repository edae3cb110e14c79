import { haveBytes, JOINT, summariesOfThread, type Summaries } from "../statistics/kernel/summaries.ts";

/** Count, means and matrix of central co-sums Σ(x_i − x̄_i)(x_j − x̄_j) of several measurands; sets can be merged. */
export interface CoMoments {
  readonly count: number;
  readonly means: readonly number[];
  readonly products: readonly (readonly number[])[];
}

/** Most bytes of columns that are copied into the memory of the module. */
const MOST_BYTES = 2 ** 24;

/** Co-moments of columns of equal length, by the module where it is to be had. */
export function coMomentsOf(columns: readonly Float64Array[], kernel = summariesOfThread()): CoMoments {
  const count = columns[0]!.length;
  const means = columns.map((column) => column[0]! + sumOfProducts(column, column[0]!, ONES, 0) / count);
  const productOf =
    kernel === null || 8 * columns.length * count > MOST_BYTES
      ? (i: number, j: number): number => sumOfProducts(columns[i]!, means[i]!, columns[j]!, means[j]!)
      : byKernel(kernel, columns, means);
  const products = columns.map((_, i) => columns.map((__, j) => (j < i ? 0 : productOf(i, j))));
  return {
    count,
    means,
    products: products.map((row, i) => row.map((value, j) => (j < i ? products[j]![i]! : value))),
  };
}

/** The sums of products of two columns, from the memory of the module. */
function byKernel(
  kernel: Summaries,
  columns: readonly Float64Array[],
  means: readonly number[],
): (i: number, j: number) => number {
  const count = columns[0]!.length;
  const place = (i: number): number => JOINT + 8 * i * count;
  haveBytes(kernel, place(columns.length));
  const { buffer } = kernel.memory;
  columns.forEach((column, i) => new Float64Array(buffer, place(i), count).set(column));
  return (i, j) => kernel.products(place(i), means[i]!, place(j), means[j]!, count);
}

/** Represents a column of ones. */
const ONES = null;

/** Σ (a − shiftA)(b − shiftB) in four independent sums: with one, each addition would wait for the previous one. */
function sumOfProducts(a: Float64Array, shiftA: number, b: Float64Array | typeof ONES, shiftB: number): number {
  const count = a.length;
  let s0 = 0;
  let s1 = 0;
  let s2 = 0;
  let s3 = 0;
  let t = 0;
  if (b === ONES) {
    for (; t + 3 < count; t += 4) {
      s0 += a[t]! - shiftA;
      s1 += a[t + 1]! - shiftA;
      s2 += a[t + 2]! - shiftA;
      s3 += a[t + 3]! - shiftA;
    }
    for (; t < count; t++) s0 += a[t]! - shiftA;
  } else {
    for (; t + 3 < count; t += 4) {
      s0 += (a[t]! - shiftA) * (b[t]! - shiftB);
      s1 += (a[t + 1]! - shiftA) * (b[t + 1]! - shiftB);
      s2 += (a[t + 2]! - shiftA) * (b[t + 2]! - shiftB);
      s3 += (a[t + 3]! - shiftA) * (b[t + 3]! - shiftB);
    }
    for (; t < count; t++) s0 += (a[t]! - shiftA) * (b[t]! - shiftB);
  }
  return s0 + s1 + (s2 + s3);
}

/** Co-moments of two sets together (Pébay, SAND2008-6212, equation 3.11). Merge in a fixed order. */
export function mergeCoMoments(a: CoMoments | null, b: CoMoments): CoMoments {
  if (a === null) return b;
  const count = a.count + b.count;
  const δ = b.means.map((mean, i) => mean - a.means[i]!);
  const weight = (a.count * b.count) / count;
  return {
    count,
    means: a.means.map((mean, i) => mean + (δ[i]! * b.count) / count),
    products: a.products.map((row, i) => row.map((value, j) => value + b.products[i]![j]! + weight * δ[i]! * δ[j]!)),
  };
}

/** Covariance matrix with n − 1 (JCGM 102, 7.6). */
export const covarianceMatrix = ({ count, products }: CoMoments): number[][] =>
  products.map((row) => row.map((value) => value / (count - 1)));

/** Correlation matrix of a covariance matrix; a measurand that does not vary has no correlation (0). */
export function correlationMatrix(covariance: readonly (readonly number[])[]): number[][] {
  const deviations = covariance.map((row, i) => Math.sqrt(row[i]!));
  return covariance.map((row, i) =>
    row.map((value, j) => {
      if (i === j) return 1;
      const scale = deviations[i]! * deviations[j]!;
      return scale === 0 ? 0 : Math.max(-1, Math.min(1, value / scale));
    }),
  );
}
