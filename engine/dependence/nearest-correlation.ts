import type { Matrix } from "../numerics/matrix.ts";
import { symmetricEigen } from "../numerics/symmetric-eigen.ts";

const STEPS = 400;

/**
 * The correlation matrix nearest to a symmetric matrix in the Frobenius norm: alternating projections onto the positive
 * semi-definite matrices and those of unit diagonal, with Dykstra's correction.
 *
 * Source: N. J. Higham, "Computing the nearest correlation matrix", IMA J. Numer. Anal. 22 (2002), algorithm 3.3.
 */
export function nearestCorrelation(matrix: Matrix): Matrix {
  const n = matrix.length;
  let y = matrix.map((row) => [...row]);
  let correction = matrix.map((row) => row.map(() => 0));
  for (let step = 0; step < STEPS; step++) {
    const r = y.map((row, i) => row.map((value, j) => value - correction[i]![j]!));
    const x = positivePart(r);
    correction = x.map((row, i) => row.map((value, j) => value - r[i]![j]!));
    let change = 0;
    const next = x.map((row, i) => row.map((value, j) => (i === j ? 1 : value)));
    for (let i = 0; i < n; i++)
      for (let j = 0; j < n; j++) change = Math.max(change, Math.abs(next[i]![j]! - y[i]![j]!));
    y = next;
    if (change < 1e-12) break;
  }
  return y;
}

/** The matrix with its negative eigenvalues set to zero. */
function positivePart(matrix: Matrix): number[][] {
  const { values, vectors } = symmetricEigen(matrix);
  return matrix.map((_, i) =>
    matrix.map((__, j) => values.reduce((sum, λ, k) => (λ > 0 ? sum + λ * vectors[i]![k]! * vectors[j]![k]! : sum), 0)),
  );
}
