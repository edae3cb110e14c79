import type { PairGrid } from "../record/joint.ts";
import type { Summaries } from "../statistics/kernel/summaries.ts";

const CELLS = 40;
/** Half-width of the grid in standard deviations. */
const REACH = 4;

/**
 * Counts trials of two measurands in a mesh of small cells, and finds the smallest region that contains a share p of
 * them: cells in order of falling count until the share is reached (JCGM 102, 7.7.4).
 */
export class PairGridCounter {
  readonly #low: readonly [number, number];
  readonly #width: readonly [number, number];
  readonly #counts = new Float64Array(CELLS * CELLS);
  #outside = 0;
  #inMemory = new Uint32Array(0);

  /** The mesh covers ±4 standard deviations about the means. */
  constructor(means: readonly [number, number], deviations: readonly [number, number]) {
    this.#low = [means[0] - REACH * deviations[0], means[1] - REACH * deviations[1]];
    this.#width = [(2 * REACH * deviations[0]) / CELLS, (2 * REACH * deviations[1]) / CELLS];
  }

  add(a: Float64Array, b: Float64Array): void {
    const [lowA, lowB] = this.#low;
    const [scaleA, scaleB] = [1 / this.#width[0], 1 / this.#width[1]];
    const counts = this.#counts;
    let outside = 0;
    for (let t = 0; t < a.length; t++) {
      const i = (a[t]! - lowA) * scaleA;
      const j = (b[t]! - lowB) * scaleB;
      if (i >= 0 && i < CELLS && j >= 0 && j < CELLS) counts[(j | 0) * CELLS + (i | 0)]! += 1;
      else outside += 1;
    }
    this.#outside += outside;
  }

  /** Bytes of a memory that counting by the module takes. */
  static readonly BYTES = 8 * Math.ceil((4 * (CELLS * CELLS + 1)) / 8);

  /** Opens counts in the memory of the module, from `at` on. */
  open(buffer: ArrayBuffer, at: number): void {
    this.#inMemory = new Uint32Array(buffer, at, CELLS * CELLS + 1);
    this.#inMemory.fill(0);
  }

  /** Adds an even number of trials, columns in the memory by their addresses. */
  addByKernel(kernel: Summaries, a: number, b: number, count: number): void {
    const [lowA, lowB] = this.#low;
    const at = this.#inMemory.byteOffset;
    kernel.mesh(a, b, count, at, CELLS, lowA, 1 / this.#width[0], lowB, 1 / this.#width[1]);
  }

  /** Takes over what was counted since `open`. */
  close(): void {
    for (let cell = 0; cell < CELLS * CELLS; cell++) this.#counts[cell]! += this.#inMemory[cell]!;
    this.#outside += this.#inMemory[CELLS * CELLS]!;
  }

  result(probability: number): PairGrid {
    const total = this.#counts.reduce((sum, count) => sum + count, this.#outside);
    const sorted = Float64Array.from(this.#counts).sort().toReversed();
    let held = 0;
    let cells = 0;
    while (held < probability * total && cells < sorted.length) held += sorted[cells++]!;
    return {
      low: this.#low,
      width: this.#width,
      cells: CELLS,
      counts: [...this.#counts],
      outside: this.#outside,
      least: cells === 0 ? 0 : sorted[cells - 1]!,
      area: cells * this.#width[0] * this.#width[1],
      held: held / total,
    };
  }
}
