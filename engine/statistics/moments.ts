/**
 * The first four moments of a set of values in a form that can be merged: count, mean, and central sums Σ(x − mean)^k.
 *
 * Source: P. Pébay, "Formulas for robust, one-pass parallel computation of covariances and arbitrary-order statistical
 * moments", Sandia report SAND2008-6212 (2008), equations 3.1 to 3.3 for two sets.
 */
export interface Moments {
  readonly count: number;
  readonly mean: number;
  readonly m2: number;
  readonly m3: number;
  readonly m4: number;
}

export const NO_MOMENTS: Moments = { count: 0, mean: 0, m2: 0, m3: 0, m4: 0 };

/** Moments of an array of values, in two passes with the rounding of the mean corrected. */
export function momentsOf(values: ArrayLike<number>): Moments {
  const count = values.length;
  if (count === 0) return NO_MOMENTS;
  const shift = values[0]!;
  let sum = 0;
  for (let i = 0; i < count; i++) sum += values[i]! - shift;
  let mean = shift + sum / count;
  let m1 = 0;
  let m2 = 0;
  let m3 = 0;
  let m4 = 0;
  for (let i = 0; i < count; i++) {
    const d = values[i]! - mean;
    const d2 = d * d;
    m1 += d;
    m2 += d2;
    m3 += d2 * d;
    m4 += d2 * d2;
  }
  const rest = m1 / count;
  mean += rest;
  m2 -= m1 * rest;
  m3 -= 3 * rest * m2 + count * rest * rest * rest;
  return { count, mean, m2, m3, m4 };
}

/** Moments of two sets together. Merge in a fixed order: floating-point sums depend on it. */
export function mergeMoments(a: Moments, b: Moments): Moments {
  if (a.count === 0) return b;
  if (b.count === 0) return a;
  const n = a.count + b.count;
  const δ = b.mean - a.mean;
  const r = δ / n;
  const ab = a.count * b.count;
  return {
    count: n,
    mean: a.mean + r * b.count,
    m2: a.m2 + b.m2 + ab * δ * r,
    m3: a.m3 + b.m3 + ab * (a.count - b.count) * δ * r * r + 3 * r * (a.count * b.m2 - b.count * a.m2),
    m4:
      a.m4 +
      b.m4 +
      ab * (a.count * a.count - ab + b.count * b.count) * δ * r * r * r +
      6 * r * r * (a.count * a.count * b.m2 + b.count * b.count * a.m2) +
      4 * r * (a.count * b.m3 - b.count * a.m3),
  };
}

/** Standard deviation with n − 1 (JCGM 101, 7.6). */
export const standardDeviation = ({ count, m2 }: Moments): number => (count < 2 ? 0 : Math.sqrt(m2 / (count - 1)));

/** Skewness γ₁; 0 if all values are equal. */
export const skewness = ({ count, m2, m3 }: Moments): number =>
  m2 === 0 ? 0 : (Math.sqrt(count) * m3) / (m2 * Math.sqrt(m2));

/** Excess kurtosis γ₂: 0 for a normal distribution, −1.2 for a rectangular one. */
export const excessKurtosis = ({ count, m2, m4 }: Moments): number => (m2 === 0 ? 0 : (count * m4) / (m2 * m2) - 3);
