import type { Matrix } from "./matrix.ts";

/**
 * Lower triangular L with L·Lᵀ = A for a symmetric positive semi-definite A. A column whose pivot vanishes (to 1e-12
 * of its diagonal) is taken as dependent on the earlier ones, so r = ±1 is allowed.
 *
 * @returns L and the rank found
 */
export function cholesky(a: Matrix): { readonly factor: number[][]; readonly rank: number } {
  const n = a.length;
  const factor = a.map((row) => row.map(() => 0));
  let rank = 0;
  for (let j = 0; j < n; j++) {
    let pivot = a[j]![j]!;
    for (let k = 0; k < j; k++) pivot -= factor[j]![k]! * factor[j]![k]!;
    if (!(pivot > 1e-12 * a[j]![j]!)) continue;
    rank += 1;
    const root = Math.sqrt(pivot);
    factor[j]![j] = root;
    for (let i = j + 1; i < n; i++) {
      let sum = a[i]![j]!;
      for (let k = 0; k < j; k++) sum -= factor[i]![k]! * factor[j]![k]!;
      factor[i]![j] = sum / root;
    }
  }
  return { factor, rank };
}
