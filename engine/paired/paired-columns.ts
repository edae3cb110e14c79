import { CELLS } from "./paired-design.ts";
import { MOMENTS, noPairedSums, PARTS, type PairedSums } from "./paired-sums.ts";

/** Numbers of a batch in `moments`, `parts` and `distances` of `PairedColumns`. */
export const COLUMN_WIDTHS = { moments: MOMENTS, parts: 2 * PARTS, distances: 2 * CELLS } as const;

/**
 * The paired sums of several batches that follow each other: float sums batch by batch, since their order fixes the bits,
 * and what is counted for all of them together. Plain data.
 */
export interface PairedColumns {
  /** A row of `COLUMN_WIDTHS` for each batch; both endpoints after each other in those of an endpoint. */
  readonly moments: Float64Array;
  readonly parts: Float64Array;
  /** The sums of distances of `EndSums.cells`. */
  readonly distances: Float64Array;
  /** What both endpoints count. */
  readonly ends: readonly [EndCounts, EndCounts];
}

interface EndCounts {
  readonly below: number;
  /** The numbers of z of `EndSums.cells`. */
  readonly cells: Float64Array;
}

/** Gathers the columns of this number of batches. */
export function openPairedColumns(batches: number) {
  const moments = new Float64Array(batches * COLUMN_WIDTHS.moments);
  const parts = new Float64Array(batches * COLUMN_WIDTHS.parts);
  const distances = new Float64Array(batches * COLUMN_WIDTHS.distances);
  const ends = [0, 1].map(() => ({ below: 0, cells: new Float64Array(CELLS) }));
  return {
    /** Takes the sums of a batch by its place. */
    set(at: number, sums: PairedSums): void {
      moments.set(sums.moments, at * MOMENTS);
      ends.forEach((end, which) => {
        const { parts: own, below, cells } = sums.ends[which]!;
        const row = 2 * at + which;
        parts.set(own, row * PARTS);
        end.below += below;
        const from = row * CELLS;
        const counts = end.cells;
        for (let cell = 0; cell < CELLS; cell++) {
          counts[cell]! += cells[2 * cell]!;
          distances[from + cell] = cells[2 * cell + 1]!;
        }
      });
    },
    columns: { moments, parts, distances, ends: ends as unknown as PairedColumns["ends"] } satisfies PairedColumns,
  };
}

/**
 * Gives batch by batch what was gathered, in one object, which the next one overwrites. The first has the counts of all, so
 * that sums are whole after the last.
 *
 * @returns takes the place of a batch and its trials
 */
export function readPairedColumns({ moments, parts, distances, ends }: PairedColumns) {
  const sums = noPairedSums();
  return (at: number, count: number): PairedSums => {
    sums.count = count;
    sums.moments.set(moments.subarray(at * MOMENTS, (at + 1) * MOMENTS));
    sums.ends.forEach((end, which) => {
      const row = 2 * at + which;
      const counted = ends[which]!;
      end.parts.set(parts.subarray(row * PARTS, (row + 1) * PARTS));
      end.below = at === 0 ? counted.below : 0;
      const from = row * CELLS;
      for (let cell = 0; cell < CELLS; cell++) {
        end.cells[2 * cell] = at === 0 ? counted.cells[cell]! : 0;
        end.cells[2 * cell + 1] = distances[from + cell]!;
      }
    });
    return sums;
  };
}
