import type { Matrix } from "./matrix.ts";

/** A pivot below this part of its diagonal counts as none: r = ±1 is allowed, however it was rounded. */
const LEAST_PIVOT = 1e-12;

/**
 * Lower triangular L with L·Lᵀ = A for a symmetric positive semi-definite A. A pivot is what the earlier columns leave of a
 * diagonal; over the diagonal it is 1 − R² of that quantity given the earlier ones. A column whose pivot is below
 * 10⁻¹² of its diagonal, or below what rounding alone can leave of it, is taken as dependent on the earlier ones: its own part
 * of L is 0, which costs the root of the pivot.
 *
 * With A = L·Lᵀ + E, |E| ≤ (n + 1)·ε·√(a_ii·a_jj) for the columns that are kept (Higham, Accuracy and Stability of Numerical
 * Algorithms, 2nd edition, theorem 10.3), so that the rank found is never more than that of A, if A is exact to this.
 *
 * @returns L and the rank found
 */
export function cholesky(a: Matrix): { readonly factor: number[][]; readonly rank: number } {
  const n = a.length;
  const factor = a.map((row) => row.map(() => 0));
  const kept: number[] = [];
  for (let j = 0; j < n; j++) {
    let pivot = a[j]![j]!;
    for (let k = 0; k < j; k++) pivot -= factor[j]![k]! * factor[j]![k]!;
    if (!(pivot > Math.max(LEAST_PIVOT * a[j]![j]!, roundingOfPivot(a, factor, kept, j)))) continue;
    kept.push(j);
    const root = Math.sqrt(pivot);
    factor[j]![j] = root;
    for (let i = j + 1; i < n; i++) {
      let sum = a[i]![j]!;
      for (let k = 0; k < j; k++) sum -= factor[i]![k]! * factor[j]![k]!;
      factor[i]![j] = sum / root;
    }
  }
  return { factor, rank: kept.length };
}

/**
 * What rounding can leave of the pivot of a column that depends on those kept: (n + 1)·ε·(√a_jj + Σ|w_k|·√a_kk)², where w
 * gives the column from the kept ones. The pivot is vᵀ·A·v for v = (−w, 1), and E of the above enters as vᵀ·E·v.
 *
 * Large only where the kept columns are nearly dependent: its size is that of W in Higham's theorem 10.14. LAPACK's pstrf, which
 * exchanges columns so that it stays small, stops at n·ε·max a_kk.
 */
function roundingOfPivot(a: Matrix, factor: Matrix, kept: readonly number[], j: number): number {
  // Lᵀ·w = the row of L, from the last kept column back.
  const w: number[] = kept.map(() => 0);
  let size = Math.sqrt(a[j]![j]!);
  for (let p = kept.length - 1; p >= 0; p--) {
    const k = kept[p]!;
    let sum = factor[j]![k]!;
    for (let q = p + 1; q < kept.length; q++) sum -= factor[kept[q]!]![k]! * w[q]!;
    const share = sum / factor[k]![k]!;
    w[p] = share;
    size += Math.abs(share) * Math.sqrt(a[k]![k]!);
  }
  return (a.length + 1) * Number.EPSILON * size * size;
}
