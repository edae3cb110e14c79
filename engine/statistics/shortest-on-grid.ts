import type { Grid } from "./grid.ts";
import { upperBound, type Sample } from "./sample.ts";

/** Cells that values are counted in, by rising value. */
export interface Cells {
  from(cell: number): number;
  to(cell: number): number;
  /** Whether a cell lies beyond the grid, where cells are not all equally wide. */
  isTail(cell: number): boolean;
  /** How far the edges of a cell may be off, since a value's cell is found with rounding errors. */
  readonly slack: number;
}

type Spanning = Pick<Sample, "count" | "least" | "greatest" | "orderStatistic"> & {
  /** Values between ranks, if the sample keeps all values. */
  between?(from: number, to: number): Float64Array;
};

/** The shortest span of a sample in the order of a grid's bins. @param before how many values lie in bins before each */
export function shortestOnGrid(
  sample: Spanning,
  { bins, low, width }: Grid,
  before: Float64Array | Uint32Array | Uint16Array,
  spanned: number,
): readonly [number, number] {
  const { least, greatest } = sample;
  const edge = (b: number): number =>
    b <= 0 ? least : b >= bins || width === 0 ? greatest : Math.min(greatest, Math.max(least, low + b * width));
  const cells = { from: edge, to: (b: number) => edge(b + 1), isTail: () => false, slack: width * 1e-6 };
  return shortestOnCells(sample, cells, before, spanned);
}

/**
 * The shortest span of a sample counted in cells, as `Sample.shortestSpan` wants it. The cells of two ranks bound how
 * far apart their values are, so that only the few spans whose bound reaches the best are searched.
 *
 * @param before how many values lie in cells before each
 * @param sample returns the values `between` ranks if it keeps them all; if not, values follow straight lines within cells,
 *   and only the ranks at which such a line begins can begin the shortest span
 */
export function shortestOnCells(
  sample: Spanning,
  { from, to, isTail, slack }: Cells,
  before: Float64Array | Uint32Array | Uint16Array,
  spanned: number,
): readonly [number, number] {
  const { count, least, greatest } = sample;
  const starts = count - spanned;
  const first = upperBound(before, 0) - 1;
  const last = upperBound(before, starts - 1) - 1;
  const bounds = new Float64Array(last - first + 1).fill(Infinity);
  let reach = Infinity;
  let top = first;
  for (let b = first; b <= last; b++) {
    if (before[b + 1] === before[b]) {
      bounds[b - first] = b > first ? bounds[b - first - 1]! : Infinity; // an empty bin does not end a stretch of bins to search
      continue;
    }
    // Bins of the upper ranks that belong to the first and the last lower rank of this bin.
    while (before[top + 1]! < before[b]! + 1 + spanned) top += 1;
    const lowest = top;
    let highest = top;
    const end = Math.min(before[b + 1]!, starts) + spanned;
    while (before[highest + 1]! < end) highest += 1;
    bounds[b - first] = from(lowest) - to(b) - slack;
    reach = Math.min(reach, to(highest) - from(b) + slack);
  }
  let best: readonly [number, number] = [least, greatest];
  let shortest = Infinity;
  const consider = (lower: number, upper: number): void => {
    if (upper - lower < shortest) {
      shortest = upper - lower;
      best = [lower, upper];
    }
  };
  for (let b = first; b <= last; b++) {
    if (bounds[b - first]! > reach) continue;
    const begin = before[b]! + 1;
    const lowest = b;
    while (b < last && bounds[b + 1 - first]! <= reach) b += 1;
    const end = Math.min(before[b + 1]!, starts);
    if (sample.between !== undefined) {
      const lows = sample.between(begin, end);
      const highs = sample.between(begin + spanned, end + spanned);
      for (let i = 0; i < lows.length; i++) consider(lows[i]!, highs[i]!);
      continue;
    }
    const considerRank = (rank: number): void =>
      consider(sample.orderStatistic(rank), sample.orderStatistic(rank + spanned));
    considerRank(begin);
    for (let c = upperBound(before, begin + spanned - 1); before[c]! + 1 - spanned <= end; c++) {
      if (before[c]! < count) considerRank(before[c]! + 1 - spanned);
    }
    for (let c = lowest; c <= b; c++) {
      if (!isTail(c) || before[c + 1] === before[c]) continue;
      considerRank(before[c]! + 1);
      considerRank(Math.min(before[c + 1]!, end));
    }
    considerRank(end);
  }
  return best;
}
