import type { Matrix } from "./matrix.ts";

/** Eigenvalues in rising order, and the eigenvectors as the columns of `vectors` in the same order. */
export interface Eigen {
  readonly values: readonly number[];
  readonly vectors: Matrix;
}

const SWEEPS = 60;

/**
 * Eigenvalues and eigenvectors of a symmetric matrix by cyclic Jacobi rotations: slow for large matrices, exact to
 * rounding for the small ones here, and with + − × ÷ √ only.
 *
 * Source: Golub & Van Loan, Matrix Computations, 4th edition, 8.5.
 */
export function symmetricEigen(matrix: Matrix): Eigen {
  const n = matrix.length;
  const a = matrix.map((row) => [...row]);
  const v = matrix.map((_, i) => matrix.map((__, j) => (i === j ? 1 : 0)));
  for (let sweep = 0; sweep < SWEEPS; sweep++) {
    let off = 0;
    let size = 0;
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) {
        size += a[i]![j]! * a[i]![j]!;
        if (i !== j) off += a[i]![j]! * a[i]![j]!;
      }
    }
    if (off <= 1e-34 * size) break;
    for (let p = 0; p < n - 1; p++) for (let q = p + 1; q < n; q++) rotate(a, v, p, q);
  }
  const order = a.map((_, i) => i).sort((i, j) => a[i]![i]! - a[j]![j]!);
  return {
    values: order.map((i) => a[i]![i]!),
    vectors: v.map((row) => order.map((i) => row[i]!)),
  };
}

/** Makes a[p][q] vanish. */
function rotate(a: number[][], v: number[][], p: number, q: number): void {
  const apq = a[p]![q]!;
  if (apq === 0) return;
  const τ = (a[q]![q]! - a[p]![p]!) / (2 * apq);
  const t = (τ >= 0 ? 1 : -1) / (Math.abs(τ) + Math.sqrt(1 + τ * τ));
  const c = 1 / Math.sqrt(1 + t * t);
  const s = t * c;
  for (let k = 0; k < a.length; k++) {
    const akp = a[k]![p]!;
    const akq = a[k]![q]!;
    a[k]![p] = c * akp - s * akq;
    a[k]![q] = s * akp + c * akq;
  }
  for (let k = 0; k < a.length; k++) {
    const apk = a[p]![k]!;
    const aqk = a[q]![k]!;
    a[p]![k] = c * apk - s * aqk;
    a[q]![k] = s * apk + c * aqk;
    const vkp = v[k]![p]!;
    const vkq = v[k]![q]!;
    v[k]![p] = c * vkp - s * vkq;
    v[k]![q] = s * vkp + c * vkq;
  }
}
