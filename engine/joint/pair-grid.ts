import type { PairGrid } from "../record/joint.ts";

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
