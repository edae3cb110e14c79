/** Count, means and the matrix of central co-sums Σ(x_i − x̄_i)(x_j − x̄_j) of several measurands, in a form that merges. */
export interface CoMoments {
  readonly count: number;
  readonly means: readonly number[];
  readonly products: readonly (readonly number[])[];
}

/** Co-moments of columns of equal length. */
export function coMomentsOf(columns: readonly Float64Array[]): CoMoments {
  const count = columns[0]!.length;
  const means = columns.map((column) => {
    const shift = column[0]!;
    let sum = 0;
    for (let t = 0; t < count; t++) sum += column[t]! - shift;
    return shift + sum / count;
  });
  const products = columns.map((a, i) =>
    columns.map((b, j) => {
      if (j < i) return 0;
      let sum = 0;
      for (let t = 0; t < count; t++) sum += (a[t]! - means[i]!) * (b[t]! - means[j]!);
      return sum;
    }),
  );
  return { count, means, products: products.map((row, i) => row.map((value, j) => (j < i ? products[j]![i]! : value))) };
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
