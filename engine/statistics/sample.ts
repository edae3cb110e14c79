/** A large sample of values, read by rank, for coverage intervals and pictures. */
export interface Sample {
  readonly count: number;
  readonly least: number;
  readonly greatest: number;
  /** How many values are ≤ x. */
  countUpTo(x: number): number;
  /** How many values are ≤ each x. `xs` rise. */
  countsUpTo(xs: readonly number[]): number[];
  /** The value of this rank, from 1 (least) to `count`. */
  orderStatistic(rank: number): number;
  /** The values of these ranks, which rise. Faster than one at a time. */
  orderStatistics(ranks: readonly number[]): number[];
  /** As `orderStatistics`, where a value between the neighbours of one in a crowd will do, for pictures. */
  nearOrderStatistics(ranks: readonly number[]): number[];
  /** Greatest error of the value for this rank: 0 if every value is kept. */
  resolution(rank: number): number;
  /**
   * The values of ranks i and i + `spanned` that lie closest together; the first such pair if several are equally
   * close. `spanned` is from 1 to `count` − 1.
   */
  shortestSpan(spanned: number): readonly [low: number, high: number];
  /** The values from `low` to `high`, and perhaps others near by. */
  within(low: number, high: number): Stretch;
}

/** Neighbouring values of a sample, in any order. */
export interface Stretch {
  /** Number of values below them. */
  readonly before: number;
  /** The values themselves, or the middles of the cells that they were counted in. */
  readonly values: Float64Array;
  /** How many each stands for; `null` if for one. */
  readonly counts: Float64Array | null;
}

/** A sample in one array in rising order. */
export function sortedSample(values: Float64Array): Sample {
  const count = values.length;
  return {
    count,
    least: count === 0 ? Infinity : values[0]!,
    greatest: count === 0 ? -Infinity : values[count - 1]!,
    countUpTo: (x) => upperBound(values, x),
    countsUpTo: (xs) => xs.map((x) => upperBound(values, x)),
    orderStatistic: (rank) => values[rank - 1]!,
    orderStatistics: (ranks) => ranks.map((rank) => values[rank - 1]!),
    nearOrderStatistics: (ranks) => ranks.map((rank) => values[rank - 1]!),
    resolution: () => 0,
    shortestSpan(spanned) {
      const starts = count - spanned;
      let best = 0;
      let width = Infinity;
      for (let i = 0; i < starts; i++) {
        const w = values[i + spanned]! - values[i]!;
        if (w < width) {
          width = w;
          best = i;
        }
      }
      return [values[best]!, values[best + spanned]!];
    },
    within(low, high) {
      const from = lowerBound(values, low);
      return { before: from, values: values.subarray(from, upperBound(values, high)), counts: null };
    },
  };
}

/** How many of the values from index `from` to below `to` of a sorted array, and before, are ≤ x. */
export function upperBound(
  sorted: Float64Array | Uint32Array | Uint16Array,
  x: number,
  from = 0,
  to = sorted.length,
): number {
  let low = from;
  let high = to;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (sorted[middle]! <= x) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** How many values of a sorted array are < x. */
function lowerBound(sorted: Float64Array, x: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (sorted[middle]! < x) low = middle + 1;
    else high = middle;
  }
  return low;
}
