import { HIGH, halves, word } from "../elementary/binary.ts";

/** A cell is this part of the distance from the grid, or less. */
const CELLS_A_BINADE = 4096;
/** High words are counted without their last bits: 12 bits of the fraction stay. */
const DROPPED_BITS = 8;

/** Values between two edges, counted. */
export interface Cell {
  readonly from: number;
  readonly to: number;
  readonly count: number;
}

/** Counts by the exponent of the distance. */
export type TailPages = readonly (readonly [page: number, counts: Float64Array])[];

/**
 * Counts of the values beyond one end of a grid, in cells that widen with the distance from it: each is as wide as a bin
 * beside the grid and a 4096th of the distance far out. So a rank far out in a tail is known to some four digits of its
 * distance, however heavy the tail, and memory follows the logarithm of the farthest value.
 */
export class TailCounts {
  readonly #end: number;
  readonly #width: number;
  readonly #side: 1 | -1;
  /** By the exponent of the distance. */
  readonly #pages = new Map<number, Float64Array>();

  /**
   * @param end of the grid
   * @param width of its bins; 0 where the grid is one value
   * @param side 1 above the grid, −1 below it
   * @param pages goes on from these
   */
  constructor(end: number, width: number, side: 1 | -1, pages: TailPages = []) {
    this.#end = end;
    this.#width = width;
    this.#side = side;
    for (const [page, counts] of pages) this.#pages.set(page, counts.slice());
  }

  /** The counts as plain data. */
  get pages(): TailPages {
    return Array.from(this.#pages, ([page, counts]) => [page, counts.slice()] as const);
  }

  add(value: number): void {
    const distance = Math.min(Number.MAX_VALUE, Math.max(0, this.#side * (value - this.#end)));
    word[0] = this.#width > 0 ? Math.min(Number.MAX_VALUE, distance / this.#width + CELLS_A_BINADE) : distance;
    const cell = halves[HIGH]! >>> DROPPED_BITS;
    const page = Math.floor(cell / CELLS_A_BINADE);
    let counts = this.#pages.get(page);
    if (counts === undefined) this.#pages.set(page, (counts = new Float64Array(CELLS_A_BINADE)));
    counts[cell % CELLS_A_BINADE]! += 1;
  }

  /** Adds the counts of another one of the same end, width and side. */
  merge(pages: TailPages): void {
    for (const [page, more] of pages) {
      const counts = this.#pages.get(page);
      if (counts === undefined) this.#pages.set(page, more.slice());
      else for (let i = 0; i < counts.length; i++) counts[i]! += more[i]!;
    }
  }

  /** The cells that hold values, by rising value. */
  cells(): Cell[] {
    const cells: Cell[] = [];
    for (const [page, counts] of [...this.#pages].sort(([a], [b]) => a - b)) {
      for (let i = 0; i < CELLS_A_BINADE; i++) {
        if (counts[i] === 0) continue;
        const cell = page * CELLS_A_BINADE + i;
        const [near, far] = [this.#edge(cell), this.#edge(cell + 1)];
        cells.push({ from: Math.min(near, far), to: Math.max(near, far), count: counts[i]! });
      }
    }
    return this.#side === 1 ? cells : cells.toReversed();
  }

  /** Where a cell begins, as seen from the grid. */
  #edge(cell: number): number {
    halves[HIGH] = cell << DROPPED_BITS;
    halves[1 - HIGH] = 0;
    const place = Math.min(Number.MAX_VALUE, word[0]!);
    const distance = this.#width > 0 ? (place - CELLS_A_BINADE) * this.#width : place;
    const edge = this.#end + this.#side * Math.min(Number.MAX_VALUE, distance);
    return Math.max(-Number.MAX_VALUE, Math.min(Number.MAX_VALUE, edge));
  }
}
