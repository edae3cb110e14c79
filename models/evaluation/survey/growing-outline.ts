import type { Outline } from "./outline.ts";

/**
 * A log drawn small while it grows: the lowest and the highest reading of equal times. Once there are too many of these,
 * neighbours are joined, so that it keeps its size however long the log becomes.
 */
export class GrowingOutline {
  readonly #most: number;
  #width: number;
  /** Start of the first time, s. */
  #start = 0;
  /** Number of each time, counted from the first in widths. */
  #columns: number[] = [];
  #lowest: number[] = [];
  #highest: number[] = [];

  /** @param most times that are kept @param width of a time at first, s */
  constructor(most = 400, width = 1) {
    this.#most = most;
    this.#width = width;
  }

  /** Takes a reading, no earlier than the one before. */
  take(time: number, value: number): void {
    if (this.#columns.length === 0) this.#start = time;
    const column = Math.floor((time - this.#start) / this.#width);
    const last = this.#columns.length - 1;
    if (this.#columns[last] === column) {
      this.#lowest[last] = Math.min(this.#lowest[last]!, value);
      this.#highest[last] = Math.max(this.#highest[last]!, value);
      return;
    }
    this.#columns.push(column);
    this.#lowest.push(value);
    this.#highest.push(value);
    while (this.#columns.length > this.#most) this.#join();
  }

  #join(): void {
    const [columns, lowest, highest]: [number[], number[], number[]] = [[], [], []];
    this.#columns.forEach((at, i) => {
      const column = Math.floor(at / 2);
      const last = columns.length - 1;
      if (columns[last] === column) {
        lowest[last] = Math.min(lowest[last]!, this.#lowest[i]!);
        highest[last] = Math.max(highest[last]!, this.#highest[i]!);
      } else {
        columns.push(column);
        lowest.push(this.#lowest[i]!);
        highest.push(this.#highest[i]!);
      }
    });
    [this.#columns, this.#lowest, this.#highest] = [columns, lowest, highest];
    this.#width *= 2;
  }

  outline(thermometer: string): Outline {
    return {
      thermometer,
      times: this.#columns.map((column) => this.#start + (column + 0.5) * this.#width),
      lowest: [...this.#lowest],
      highest: [...this.#highest],
    };
  }
}
