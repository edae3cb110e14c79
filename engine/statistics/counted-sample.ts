import { binOf, finerGrid, type Grid } from "./grid.ts";
import { shortestOnCells } from "./shortest-on-grid.ts";
import { upperBound, type Sample, type Stretch } from "./sample.ts";
import { TailCounts, type Cell, type TailPages } from "./tail-counts.ts";

/** How many bins trials are counted in, where they are not kept, for one that batches are binned by. */
const FINER = 32;

/** A sample without values yet, on the finer grid that belongs to the grid of a study's batches. */
export const countedOn = (grid: Grid): CountedSample => new CountedSample(finerGrid(grid, FINER));

/** All cells by rising value: those below the grid, the bins of the grid, those above it. */
interface Counted {
  readonly below: readonly Cell[];
  readonly above: readonly Cell[];
  /** How many values lie in cells before each; one more entry than cells. */
  readonly before: Float64Array;
}

/** A counted sample as plain data. */
export interface CountedState {
  readonly kind: "counted";
  readonly grid: Grid;
  readonly counts: Float64Array;
  readonly below: TailPages;
  readonly above: TailPages;
  readonly count: number;
  readonly least: number;
  readonly greatest: number;
}

/**
 * A sample too large to keep: counts on a grid, and in widening cells beyond it, so that its memory does not grow. A value
 * of a given rank certainly lies in the cell of that rank; it is interpolated in the cell, whose width is the `resolution`.
 */
export class CountedSample implements Sample {
  readonly #grid: Grid;
  readonly #counts: Float64Array;
  readonly #below: TailCounts;
  readonly #above: TailCounts;
  #counted: Counted | null = null;
  #count = 0;
  #least = Infinity;
  #greatest = -Infinity;

  /** @param from goes on from there, on the same grid */
  constructor(grid: Grid, from?: CountedState) {
    const { bins, low, width } = grid;
    this.#grid = grid;
    this.#counts = from?.counts.slice() ?? new Float64Array(bins);
    this.#below = new TailCounts(low, width, -1, from?.below);
    this.#above = new TailCounts(low + bins * width, width, 1, from?.above);
    if (from === undefined) return;
    this.#count = from.count;
    this.#least = from.least;
    this.#greatest = from.greatest;
  }

  /** The sample as plain data; its arrays are never written again. */
  get state(): CountedState {
    return {
      kind: "counted",
      grid: this.#grid,
      counts: this.#counts.slice(),
      below: this.#below.pages,
      above: this.#above.pages,
      count: this.#count,
      least: this.#least,
      greatest: this.#greatest,
    };
  }

  /** Counts values, in any order. */
  add(values: Float64Array): void {
    const n = values.length;
    const { bins, low, density } = this.#grid;
    const counts = this.#counts;
    let least = this.#least;
    let greatest = this.#greatest;
    for (let i = 0; i < n; i++) {
      const value = values[i]!;
      if (value < least) least = value;
      if (value > greatest) greatest = value;
      const place = (value - low) * density;
      if (density === 0 ? value === low : place >= 0 && place < bins) counts[place | 0]! += 1;
      else (value < low ? this.#below : this.#above).add(value);
    }
    this.#counted = null;
    this.#count += n;
    this.#least = least;
    this.#greatest = greatest;
  }

  /** Adds values that another sample on the same grid has counted. */
  merge({ counts, below, above, count, least, greatest }: CountedState): void {
    const own = this.#counts;
    for (let i = 0; i < own.length; i++) own[i]! += counts[i]!;
    this.#below.merge(below);
    this.#above.merge(above);
    this.#counted = null;
    this.#count += count;
    this.#least = Math.min(this.#least, least);
    this.#greatest = Math.max(this.#greatest, greatest);
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
    const { before } = this.#cells();
    const cell = this.#cellAt(x);
    const { from, to } = this.#edges(cell);
    const share = to > from ? Math.min(1, Math.max(0, (x - from) / (to - from))) : x >= from ? 1 : 0;
    return before[cell]! + Math.round(share * (before[cell + 1]! - before[cell]!));
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
    const { before } = this.#cells();
    const cell = this.#cellOfRank(rank);
    const { from, to } = this.#edges(cell);
    return from + (to - from) * ((rank - 0.5 - before[cell]!) / (before[cell + 1]! - before[cell]!));
  }

  nearOrderStatistics(ranks: readonly number[]): number[] {
    return this.orderStatistics(ranks);
  }

  resolution(rank: number): number {
    if (rank <= 1 || rank >= this.#count) return 0;
    const { from, to } = this.#edges(this.#cellOfRank(rank));
    return to - from;
  }

  shortestSpan(spanned: number): readonly [number, number] {
    const { before, below } = this.#cells();
    const { bins, width } = this.#grid;
    return shortestOnCells(
      this,
      {
        from: (cell) => this.#edges(cell).from,
        to: (cell) => this.#edges(cell).to,
        isTail: (cell) => cell < below.length || cell >= below.length + bins,
        slack: width * 1e-6,
      },
      before,
      spanned,
    );
  }

  within(low: number, high: number): Stretch {
    const { before } = this.#cells();
    const first = this.#cellAt(low);
    const past = this.#cellAt(high) + 1;
    const cells = Array.from({ length: past - first }, (_, i) => first + i).filter(
      (cell) => before[cell + 1]! > before[cell]!,
    );
    return {
      before: before[first]!,
      values: Float64Array.from(cells, (cell) => {
        const { from, to } = this.#edges(cell);
        return from / 2 + to / 2;
      }),
      counts: Float64Array.from(cells, (cell) => before[cell + 1]! - before[cell]!),
    };
  }

  #cellOfRank(rank: number): number {
    return upperBound(this.#cells().before, rank - 1) - 1;
  }

  /** The last cell that begins at or below x. */
  #cellAt(x: number): number {
    const { below, above } = this.#cells();
    const { bins, low, width } = this.#grid;
    const lastFrom = (cells: readonly Cell[]): number => {
      let [first, past] = [0, cells.length];
      while (first < past) {
        const middle = (first + past) >>> 1;
        if (cells[middle]!.from <= x) first = middle + 1;
        else past = middle;
      }
      return first - 1;
    };
    if (x < low) return Math.max(0, lastFrom(below));
    if (above.length > 0 && x >= Math.max(above[0]!.from, low + bins * width)) {
      return below.length + bins + lastFrom(above);
    }
    return below.length + binOf(this.#grid, x);
  }

  /** The values of a cell lie between its edges, or between the extremes of the sample if these are nearer. */
  #edges(cell: number): { from: number; to: number } {
    const { below, above } = this.#cells();
    const { bins, low, width } = this.#grid;
    const bin = cell - below.length;
    const { from, to } =
      bin < 0
        ? below[cell]!
        : bin >= bins
          ? above[bin - bins]!
          : { from: low + bin * width, to: low + (bin + 1) * width };
    const within = (x: number): number => Math.min(this.#greatest, Math.max(this.#least, x));
    return { from: within(from), to: within(to) };
  }

  #cells(): Counted {
    if (this.#counted !== null) return this.#counted;
    const below = this.#below.cells();
    const above = this.#above.cells();
    const { bins } = this.#grid;
    const before = new Float64Array(below.length + bins + above.length + 1);
    let at = 0;
    for (const { count } of below) before[at + 1] = before[at++]! + count;
    for (let b = 0; b < bins; b++) before[at + 1] = before[at++]! + this.#counts[b]!;
    for (const { count } of above) before[at + 1] = before[at++]! + count;
    return (this.#counted = { below, above, before });
  }
}
