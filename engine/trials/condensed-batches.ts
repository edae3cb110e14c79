import type { JointBatch } from "../joint/joint-batch.ts";
import { openPairedColumns, readPairedColumns, type PairedColumns } from "../paired/paired-columns.ts";
import type { PairedDesign } from "../paired/paired-design.ts";
import { countedOn, type CountedState } from "../statistics/counted-sample.ts";
import type { Grid } from "../statistics/grid.ts";
import type { Batch, MeasurandBatch } from "./batch.ts";

const NONE = new Float64Array(0);
const NO_STARTS = new Uint16Array(0);

/** Moments of a batch in a row of `CondensedMeasurand.moments`: mean, m2, m3, m4, scale. */
export const MOMENTS_ROW = 5;

/**
 * Batches that follow each other and whose trials a run does not keep, as columns: the trials are counted together on the
 * run's grid, and what is summed stays batch by batch, since the order of sums fixes the bits. Plain data.
 */
export interface CondensedBatches {
  readonly first: number;
  /** Trials of each batch. */
  readonly counts: readonly number[];
  /** Trials left out of each. */
  readonly leftOut: readonly number[];
  readonly measurands: readonly CondensedMeasurand[];
  /** The joint figures of each batch, if there are several measurands. */
  readonly joint: readonly JointBatch[] | null;
}

export interface CondensedMeasurand {
  readonly grid: Grid;
  readonly counted: CountedState;
  /** A row of `MOMENTS_ROW` for each batch. */
  readonly moments: Float64Array;
  /** Lower and upper endpoint of each batch. */
  readonly intervals: Float64Array;
  readonly paired: { readonly design: PairedDesign; readonly columns: PairedColumns } | null;
}

/** Gathers up to `most` batches that follow each other. Nothing of a batch is used once it is added. */
export function openCondensing(first: number, most: number) {
  const counts: number[] = [];
  const leftOut: number[] = [];
  const joint: JointBatch[] = [];
  let parts: ReturnType<typeof openMeasurand>[] = [];
  return {
    add(batch: Batch): void {
      if (counts.length === 0) parts = batch.measurands.map((part) => openMeasurand(part, most));
      batch.measurands.forEach((part, i) => parts[i]!.add(counts.length, part));
      if (batch.joint !== null) joint.push({ ...batch.joint, columns: batch.joint.columns.map(endsOf) });
      counts.push(batch.count);
      leftOut.push(batch.leftOut);
    },
    result: (): CondensedBatches => ({
      first,
      counts,
      leftOut,
      measurands: parts.map((part) => part.result()),
      joint: joint.length === 0 ? null : joint,
    }),
  };
}

function openMeasurand({ grid, paired }: MeasurandBatch, most: number) {
  const sample = countedOn(grid);
  const moments = new Float64Array(most * MOMENTS_ROW);
  const intervals = new Float64Array(2 * most);
  const pairedSums = paired === null ? null : { design: paired.design, ...openPairedColumns(most) };
  return {
    add(at: number, part: MeasurandBatch): void {
      sample.add(part.values);
      const { mean, m2, m3, m4, scale } = part.moments;
      moments.set([mean, m2, m3, m4, scale], at * MOMENTS_ROW);
      intervals.set(part.interval, 2 * at);
      pairedSums?.set(at, part.paired!.sums);
    },
    result: (): CondensedMeasurand => ({
      grid,
      counted: sample.state,
      moments,
      intervals,
      paired: pairedSums === null ? null : { design: pairedSums.design, columns: pairedSums.columns },
    }),
  };
}

/**
 * Batch by batch, for `Accumulation.add`: it gathers what it would have of the batches themselves, bit for bit. The first
 * batch has the counts of all, so that it is whole after the last, and not between them. The next batch overwrites one's
 * paired sums.
 */
export function* batchesIn({ first, counts, leftOut, measurands, joint }: CondensedBatches): Generator<Batch> {
  const read = measurands.map(({ paired }) => (paired === null ? null : readPairedColumns(paired.columns)));
  let at = first;
  for (const [i, count] of counts.entries()) {
    yield {
      first: at,
      count,
      leftOut: leftOut[i]!,
      measurands: measurands.map(({ grid, counted, moments, intervals, paired }, m) => {
        const row = i * MOMENTS_ROW;
        return {
          values: NONE,
          starts: NO_STARTS,
          grid,
          moments: {
            count,
            mean: moments[row]!,
            m2: moments[row + 1]!,
            m3: moments[row + 2]!,
            m4: moments[row + 3]!,
            scale: moments[row + 4]!,
          },
          ...(i === 0 ? { counted } : {}),
          interval: [intervals[2 * i]!, intervals[2 * i + 1]!],
          paired: paired === null ? null : { design: paired.design, sums: read[m]!(i, count) },
        };
      }),
      joint: joint === null ? null : joint[i]!,
    };
    at += count;
  }
}

/** All that is asked of the values of trials that are not kept: whether they vary (`JointGathering`). */
function endsOf(column: Float64Array): Float64Array {
  let [least, greatest] = [Infinity, -Infinity];
  for (const value of column) {
    if (value < least) least = value;
    if (value > greatest) greatest = value;
  }
  return Float64Array.of(least, greatest);
}
