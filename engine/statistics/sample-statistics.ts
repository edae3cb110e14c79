/** Mean and dispersion of a set of values (JCGM 100, 4.2.1 and 4.2.2). */
export interface SampleStatistics {
  readonly count: number;
  readonly mean: number;
  /** s with n − 1, `0` for a single value. */
  readonly standardDeviation: number;
}

/** Sum with compensation for lost low digits (A. Neumaier, ZAMM 54 (1974) 39, algorithm IV). */
export function compensatedSum(values: ArrayLike<number>, of: (value: number) => number = (value) => value): number {
  let sum = 0;
  let lost = 0;
  for (let i = 0; i < values.length; i++) {
    const term = of(values[i]!);
    const next = sum + term;
    lost += Math.abs(sum) >= Math.abs(term) ? sum - next + term : term - next + sum;
    sum = next;
  }
  return sum + lost;
}

/**
 * Mean and s of values in any unit, in two passes with the rounding of the mean corrected: one-pass sums of squares
 * lose every digit of s when the values share a large offset, as temperatures do.
 */
export function sampleStatistics(values: ArrayLike<number>): SampleStatistics {
  const count = values.length;
  if (count === 0) return { count: 0, mean: 0, standardDeviation: 0 };
  const shift = values[0]!;
  const mean = shift + compensatedSum(values, (value) => value - shift) / count;
  if (count === 1) return { count, mean, standardDeviation: 0 };
  const squares = compensatedSum(values, (value) => (value - mean) * (value - mean));
  const rest = compensatedSum(values, (value) => value - mean);
  return { count, mean, standardDeviation: Math.sqrt(Math.max(0, squares - (rest * rest) / count) / (count - 1)) };
}
