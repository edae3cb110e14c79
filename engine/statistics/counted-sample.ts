import { binOf, type Grid } from "./grid.ts";
import { shortestOnGrid } from "./shortest-on-grid.ts";
import { upperBound, type Sample } from "./sample.ts";

/**
 * A sample too large to keep: counts on a grid, so that its memory does not grow. A value of a given rank certainly lies in
 * the bin of that rank; it is interpolated in the bin, whose width is the `resolution`.
 */
export class CountedSample implements Sample {
  readonly #grid: Grid;
  readonly #counts: Float64Array;
  #before: Float64Array | null = null;
  #count = 0;
  #least = Infinity;
  #greatest = -Infinity;

  constructor(grid: Grid) {
    this.#grid = grid;
    this.#counts = new Float64Array(grid.bins);
  }

  /** Counts values, in any order. */
  add(values: Float64Array): void {
    const n = values.length;
    const { bins, low, density } = this.#grid;
    const counts = this.#counts;
    const last = bins - 1;
    let least = this.#least;
    let greatest = this.#greatest;
    for (let i = 0; i < n; i++) {
      const value = values[i]!;
      if (value < least) least = value;
      if (value > greatest) greatest = value;
      const place = (value - low) * density;
      counts[place >= last ? last : place > 0 ? place | 0 : 0]! += 1;
    }
    this.#before = null;
    this.#count += n;
    this.#least = least;
    this.#greatest = greatest;
  }

  get count(): number {
    return this.#count;
  }
  get least(): number {
    return this.#least;
  }
  get greatest(): number {
    return this.#greatest;
  }

  countUpTo(x: number): number {
    if (x < this.#least) return 0;
    if (x >= this.#greatest) return this.#count;
    const bin = binOf(this.#grid, x);
    const [from, to] = this.#edges(bin);
    const share = to > from ? Math.min(1, Math.max(0, (x - from) / (to - from))) : 1;
    return this.#cumulated()[bin]! + Math.round(share * this.#counts[bin]!);
  }

  countsUpTo(xs: readonly number[]): number[] {
    return xs.map((x) => this.countUpTo(x));
  }

  orderStatistics(ranks: readonly number[]): number[] {
    return ranks.map((rank) => this.orderStatistic(rank));
  }

  orderStatistic(rank: number): number {
    if (rank <= 1) return this.#least;
    if (rank >= this.#count) return this.#greatest;
    const before = this.#cumulated();
    const bin = upperBound(before, rank - 1) - 1;
    const [from, to] = this.#edges(bin);
    return from + (to - from) * ((rank - 0.5 - before[bin]!) / this.#counts[bin]!);
  }

  nearOrderStatistics(ranks: readonly number[]): number[] {
    return this.orderStatistics(ranks);
  }

  resolution(rank: number): number {
    if (rank <= 1 || rank >= this.#count) return 0;
    const [from, to] = this.#edges(upperBound(this.#cumulated(), rank - 1) - 1);
    return to - from;
  }

  shortestSpan(spanned: number): readonly [number, number] {
    return shortestOnGrid(this, this.#grid, this.#cumulated(), spanned);
  }

  /** Between what the values of a bin lie: its edges, or the extremes. */
  #edges(bin: number): readonly [number, number] {
    const { bins, low, width } = this.#grid;
    const from = bin === 0 || width === 0 ? this.#least : low + bin * width;
    const to = bin === bins - 1 || width === 0 ? this.#greatest : low + (bin + 1) * width;
    return [Math.max(from, this.#least), Math.min(to, this.#greatest)];
  }

  #cumulated(): Float64Array {
    if (this.#before !== null) return this.#before;
    const before = new Float64Array(this.#grid.bins + 1);
    for (let b = 0; b < this.#grid.bins; b++) before[b + 1] = before[b]! + this.#counts[b]!;
    return (this.#before = before);
  }
}
