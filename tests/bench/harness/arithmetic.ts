/** Middle and quartiles of some values. */
export interface Spread {
  readonly median: number;
  readonly lower: number;
  readonly upper: number;
}

/** The value at a fraction p of the way through the sorted values, straight lines between them. */
export function quantile(values: readonly number[], p: number): number {
  if (values.length === 0) throw new RangeError("a quantile of no values");
  const sorted = values.toSorted((a, b) => a - b);
  const place = p * (sorted.length - 1);
  const below = Math.floor(place);
  const above = Math.min(below + 1, sorted.length - 1);
  return sorted[below]! + (place - below) * (sorted[above]! - sorted[below]!);
}

/** The value that a share p of the values do not exceed: one of the values themselves (nearest rank). */
export function nearestRank(values: readonly number[], p: number): number {
  if (values.length === 0) throw new RangeError("a rank of no values");
  return values.toSorted((a, b) => a - b)[Math.max(0, Math.ceil(p * values.length - 1e-9) - 1)]!;
}

export const spreadOf = (values: readonly number[]): Spread => ({
  median: quantile(values, 0.5),
  lower: quantile(values, 0.25),
  upper: quantile(values, 0.75),
});

/**
 * The spread of a/b where both were measured in the same rounds: each round gives one ratio, so that what slowed the
 * machine for a whole round cancels.
 */
export function ratiosOf(a: readonly number[], b: readonly number[]): Spread {
  if (a.length !== b.length) throw new RangeError(`${a.length} rounds against ${b.length}`);
  return spreadOf(a.map((value, i) => value / b[i]!));
}

export const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;
