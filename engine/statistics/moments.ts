import { powerOfTwoAbove } from "../numerics/power-of-two.ts";

/**
 * The first four moments of a set of values in a form that can be merged: count, mean, and central sums Σ(x − mean)^k.
 *
 * Source: P. Pébay, "Formulas for robust, one-pass parallel computation of covariances and arbitrary-order statistical
 * moments", Sandia report SAND2008-6212 (2008), equations 3.1 to 3.3 for two sets.
 */
export interface Moments {
  readonly count: number;
  readonly mean: number;
  /** Σ((x − mean)/scale)^k. */
  readonly m2: number;
  readonly m3: number;
  readonly m4: number;
  /** A power of two: 1, unless fourth powers of the deviations would leave the range of a double. */
  readonly scale: number;
}

export const NO_MOMENTS: Moments = { count: 0, mean: 0, m2: 0, m3: 0, m4: 0, scale: 1 };

/** Between these a sum of fourth powers keeps its digits, even when it is merged with many others. */
const LEAST_M4 = 1e-270;
const GREATEST_M4 = 1e270;

/** Moments of an array of values, at any scale that a double has. */
export const momentsOf = (values: ArrayLike<number>): Moments => inScale(values, plainMoments(values));

/** The moments of `values` from those that were found with no scale. */
function inScale(values: ArrayLike<number>, plain: Moments): Moments {
  if (plain.m4 > LEAST_M4 && plain.m4 < GREATEST_M4) return plain;
  const scale = powerOfTwoAbove(halfRange(values));
  // Equal values have no scale, and need none.
  if (scale === 0) return plain;
  const { mean, ...sums } = plainMoments(Float64Array.from(values, (value) => value / scale));
  return { ...sums, mean: mean * scale, scale };
}

/** In two passes: the second corrects the mean for its rounding. The first value as origin keeps the digits of a small spread. */
function plainMoments(values: ArrayLike<number>): Moments {
  const count = values.length;
  if (count === 0) return NO_MOMENTS;
  const shift = values[0]!;
  let sum = 0;
  for (let i = 0; i < count; i++) sum += values[i]! - shift;
  const mean = shift + sum / count;
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
  return corrected(count, mean, m1, m2, m3, m4);
}

/** Moments from the sums of (x − mean)^k, with `mean` as it was rounded. */
function corrected(count: number, mean: number, m1: number, m2: number, m3: number, m4: number): Moments {
  const rest = m1 / count;
  const square = m2 - m1 * rest;
  return {
    count,
    mean: mean + rest,
    m2: square,
    m3: m3 - (3 * rest * square + count * rest * rest * rest),
    m4,
    scale: 1,
  };
}

/** Moments of `values` from sums that were found elsewhere, in the order of the values. @param sums of (x − mean)^k, k from 1 */
export const momentsFromSums = (values: Float64Array, mean: number, sums: Float64Array): Moments =>
  inScale(values, corrected(values.length, mean, sums[0]!, sums[1]!, sums[2]!, sums[3]!));

/** Half the range of values, which never overflows. */
function halfRange(values: ArrayLike<number>): number {
  let least = Infinity;
  let greatest = -Infinity;
  for (let i = 0; i < values.length; i++) {
    least = Math.min(least, values[i]!);
    greatest = Math.max(greatest, values[i]!);
  }
  return greatest > least ? greatest / 2 - least / 2 || Number.MIN_VALUE : 0;
}

/** The same moments in units of another power of two. */
function rescaled({ count, mean, m2, m3, m4, scale }: Moments, to: number): Moments {
  const ratio = scale / to;
  const square = ratio * ratio;
  return { count, mean, m2: m2 * square, m3: m3 * square * ratio, m4: m4 * square * square, scale: to };
}

/** Moments of two sets together. Merge in a fixed order: floating-point sums depend on it. */
export function mergeMoments(a: Moments, b: Moments): Moments {
  if (a.count === 0) return b;
  if (b.count === 0) return a;
  if (a.scale !== b.scale) {
    // Values that are all equal take any scale.
    const scale = a.m2 === 0 ? b.scale : b.m2 === 0 ? a.scale : Math.max(a.scale, b.scale);
    return mergeMoments(rescaled(a, scale), rescaled(b, scale));
  }
  const { scale } = a;
  const n = a.count + b.count;
  const δ = scale === 1 ? b.mean - a.mean : b.mean / scale - a.mean / scale;
  const r = δ / n;
  const ab = a.count * b.count;
  return {
    count: n,
    mean: a.mean + r * b.count * scale,
    m2: a.m2 + b.m2 + ab * δ * r,
    m3: a.m3 + b.m3 + ab * (a.count - b.count) * δ * r * r + 3 * r * (a.count * b.m2 - b.count * a.m2),
    m4:
      a.m4 +
      b.m4 +
      ab * (a.count * a.count - ab + b.count * b.count) * δ * r * r * r +
      6 * r * r * (a.count * a.count * b.m2 + b.count * b.count * a.m2) +
      4 * r * (a.count * b.m3 - b.count * a.m3),
    scale,
  };
}

/** Standard deviation with n − 1 (JCGM 101, 7.6). */
export const standardDeviation = ({ count, m2, scale }: Moments): number =>
  count < 2 ? 0 : Math.sqrt(m2 / (count - 1)) * scale;

/** Skewness γ₁; 0 if all values are equal. */
export const skewness = ({ count, m2, m3 }: Moments): number =>
  m2 === 0 ? 0 : (Math.sqrt(count) * m3) / (m2 * Math.sqrt(m2));

/** Excess kurtosis γ₂: 0 for a normal distribution, −1.2 for a rectangular one. */
export const excessKurtosis = ({ count, m2, m4 }: Moments): number => (m2 === 0 ? 0 : (count * m4) / (m2 * m2) - 3);
