/** The mean of a function of the values. */
export function meanOf(values: Float64Array, f: (x: number) => number): number {
  let sum = 0;
  for (const x of values) sum += f(x);
  return sum / values.length;
}

/**
 * Kolmogorov's distance of a sample from a distribution function.
 *
 * @param values are sorted in place
 */
export function kolmogorovDistance(values: Float64Array, distributionFunction: (x: number) => number): number {
  values.sort();
  const n = values.length;
  let distance = 0;
  for (let i = 0; i < n; i++) {
    const p = distributionFunction(values[i]!);
    // Written so that a NaN is kept.
    const here = Math.max((i + 1) / n - p, p - i / n);
    if (!(here <= distance)) distance = here;
  }
  return distance;
}

/** The distance that a right sample of n exceeds with this probability: P(√n·D > z) < 2·exp(−2z²). */
export const kolmogorovLimit = (n: number, falseAlarm: number): number => Math.sqrt(Math.log(2 / falseAlarm) / 2 / n);

/** The correlation of two columns, after a function of each. */
export function correlationOf(
  a: Float64Array,
  b: Float64Array,
  f: (x: number) => number,
  g: (x: number) => number,
): number {
  const [meanA, meanB] = [meanOf(a, f), meanOf(b, g)];
  let [ab, aa, bb] = [0, 0, 0];
  for (let i = 0; i < a.length; i++) {
    const [x, y] = [f(a[i]!) - meanA, g(b[i]!) - meanB];
    ab += x * y;
    aa += x * x;
    bb += y * y;
  }
  return ab / Math.sqrt(aa * bb);
}
