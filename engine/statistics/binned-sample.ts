import type { BinnedRun } from "./binned-run.ts";
import { binOf, type Grid } from "./grid.ts";
import { upperBound, type Sample, type Stretch } from "./sample.ts";
import { select } from "./select.ts";
import { shortestOnGrid } from "./shortest-on-grid.ts";

/** With this many values in one bin, the rank of a value among them gives its place well enough for a picture. */
const CROWD = 64;

/** A binned sample as plain data: its runs in order. */
export interface BinnedState {
  readonly kind: "binned";
  readonly grid: Grid;
  readonly runs: readonly BinnedRun[];
}

/**
 * A large sample kept whole as binned runs, one a batch of trials. A value of a given rank is found in its bin of
 * the grid; the whole sample is never sorted.
 */
export class BinnedSample implements Sample {
  readonly #grid: Grid;
  readonly #runs: BinnedRun[] = [];
  /** Number of values in the bins before each. */
  #before: Uint16Array | Uint32Array;
  readonly #gathered = new Map<number, Float64Array>();
  readonly #sorted = new Set<number>();
  #count = 0;

  constructor(grid: Grid, first?: BinnedRun) {
    this.#grid = grid;
    if (first === undefined) {
      this.#before = new Uint32Array(grid.bins + 1);
    } else {
      // With one run, its own starts are used directly.
      this.#before = first.starts;
      this.#runs.push(first);
      this.#count = first.values.length;
    }
  }

  /** Adds a run binned by this sample's grid, without a copy. At most 2³² − 1 values in all. */
  add(run: BinnedRun): void {
    const { values, starts } = run;
    if (this.#runs.length === 1) this.#before = Uint32Array.from(this.#before);
    const before = this.#before;
    for (let b = 0; b < before.length; b++) before[b]! += starts[b]!;
    this.#runs.push(run);
    this.#count += values.length;
    this.#gathered.clear();
    this.#sorted.clear();
  }

  /** The sample as plain data; its arrays are never written again. */
  get state(): BinnedState {
    return { kind: "binned", grid: this.#grid, runs: this.#runs.map(({ values, starts }) => ({ values, starts })) };
  }

  get runs(): readonly BinnedRun[] {
    return this.#runs;
  }
  get count(): number {
    return this.#count;
  }
  get least(): number {
    return this.#count === 0 ? Infinity : this.orderStatistic(1);
  }
  get greatest(): number {
    return this.#count === 0 ? -Infinity : this.orderStatistic(this.#count);
  }

  countUpTo(x: number): number {
    return this.countsUpTo([x])[0]!;
  }

  countsUpTo(xs: readonly number[]): number[] {
    const bins = xs.map((x) => binOf(this.#grid, x));
    const totals = Float64Array.from(bins, (bin) => this.#before[bin]!);
    // Run by run, since each has its own memory.
    for (const { values, starts } of this.#runs) {
      for (let k = 0; k < xs.length; k++) {
        const x = xs[k]!;
        const to = starts[bins[k]! + 1]!;
        let found = 0;
        for (let i = starts[bins[k]!]!; i < to; i++) if (values[i]! <= x) found += 1;
        totals[k]! += found;
      }
    }
    return Array.from(totals);
  }

  orderStatistic(rank: number): number {
    return this.orderStatistics([rank])[0]!;
  }

  orderStatistics(ranks: readonly number[]): number[] {
    const bins = ranks.map((rank) => this.#binOfRank(rank));
    this.#gather(bins);
    return ranks.map((rank, k) => {
      const bin = bins[k]!;
      const place = rank - this.#before[bin]!;
      const values = this.#gathered.get(bin)!;
      return this.#sorted.has(bin) ? values[place - 1]! : select(values, place);
    });
  }

  nearOrderStatistics(ranks: readonly number[]): number[] {
    const { bins, low, width } = this.#grid;
    const own = ranks.map((rank) => this.#binOfRank(rank));
    const near = own.map((bin) => bin > 0 && bin < bins - 1 && this.#before[bin + 1]! - this.#before[bin]! >= CROWD);
    const exact = this.orderStatistics(ranks.filter((_, k) => !near[k]));
    let next = 0;
    return ranks.map((rank, k) => {
      if (!near[k]) return exact[next++]!;
      const bin = own[k]!;
      const share = (rank - 0.5 - this.#before[bin]!) / (this.#before[bin + 1]! - this.#before[bin]!);
      return low + (bin + share) * width;
    });
  }

  resolution(): number {
    return 0;
  }

  shortestSpan(spanned: number): readonly [number, number] {
    return shortestOnGrid(this, this.#grid, this.#before, spanned);
  }

  within(low: number, high: number): Stretch {
    const first = binOf(this.#grid, low);
    const past = binOf(this.#grid, high) + 1;
    const before = this.#before[first]!;
    const values = new Float64Array(this.#before[past]! - before);
    let at = 0;
    for (const run of this.#runs) {
      const part = run.values.subarray(run.starts[first]!, run.starts[past]!);
      values.set(part, at);
      at += part.length;
    }
    return { before, values, counts: null };
  }

  /** The values from rank `from` up to rank `to`, sorted: for ranks close together. */
  between(from: number, to: number): Float64Array {
    const bins: number[] = [];
    for (let bin = this.#binOfRank(from); bin < this.#grid.bins && this.#before[bin]! < to; bin++) bins.push(bin);
    this.#gather(bins);
    const begin = this.#before[bins[0]!]!;
    const values = new Float64Array(this.#before[bins.at(-1)! + 1]! - begin);
    for (const bin of bins) {
      const inBin = this.#gathered.get(bin)!;
      if (!this.#sorted.has(bin)) {
        inBin.sort();
        this.#sorted.add(bin);
      }
      values.set(inBin, this.#before[bin]! - begin);
    }
    return values.subarray(from - 1 - begin, to - begin);
  }

  #binOfRank(rank: number): number {
    return upperBound(this.#before, rank - 1) - 1;
  }

  /** Gathers the values of bins from the runs. */
  #gather(bins: readonly number[]): void {
    const wanted = bins.filter((bin, k) => !this.#gathered.has(bin) && bins.indexOf(bin) === k);
    if (wanted.length === 0) return;
    const ends = wanted.map(() => 0);
    const gathered = wanted.map((bin) => new Float64Array(this.#before[bin + 1]! - this.#before[bin]!));
    for (const { values, starts } of this.#runs) {
      for (let k = 0; k < wanted.length; k++) {
        const out = gathered[k]!;
        const to = starts[wanted[k]! + 1]!;
        let at = ends[k]!;
        for (let i = starts[wanted[k]!]!; i < to; i++) out[at++] = values[i]!;
        ends[k] = at;
      }
    }
    wanted.forEach((bin, k) => this.#gathered.set(bin, gathered[k]!));
  }
}
