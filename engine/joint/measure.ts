import { cholesky } from "../numerics/cholesky.ts";
import type { Matrix } from "../numerics/matrix.ts";
import type { Summaries } from "../statistics/kernel/summaries.ts";
import { distancesBy, greatestDeviations } from "./coverage-region.ts";

/** A figure of each trial that a region about the means limits: trials of small figures lie in it. */
export interface Measure {
  /** Which of the measurands it takes. */
  readonly members: readonly number[];
  readonly means: readonly number[];
  /** Factor L of the covariance of a squared distance; `null` for the greatest deviation, in units of `deviations`. */
  readonly factor: Matrix | null;
  readonly deviations: readonly number[];
}

const partOf = (means: readonly number[], covariance: Matrix, members: readonly number[]) => ({
  members,
  means: members.map((i) => means[i]!),
  deviations: members.map((i) => Math.sqrt(covariance[i]![i]!)),
});

/** The squared distance whose limit is an ellipsoid over some of the measurands; `null` if their covariance is singular. */
export function distanceMeasure(
  means: readonly number[],
  covariance: Matrix,
  members: readonly number[],
): Measure | null {
  const { factor, rank } = cholesky(members.map((i) => members.map((j) => covariance[i]![j]!)));
  return rank < members.length ? null : { ...partOf(means, covariance, members), factor };
}

/** The greatest deviation, whose limit is a hyper-rectangle. */
export const deviationMeasure = (means: readonly number[], covariance: Matrix): Measure => ({
  ...partOf(
    means,
    covariance,
    means.map((_, i) => i),
  ),
  factor: null,
});

/** Writes the figures of trials to `out`. @param columns one array for each of the study's measurands */
export function measurePlainly(
  { members, means, factor, deviations }: Measure,
  columns: readonly Float64Array[],
  out: Float64Array,
): void {
  const own = members.map((i) => columns[i]!);
  if (factor === null) greatestDeviations(own, means, deviations, out);
  else distancesBy(factor, means)(own, out);
}

/** Where a stretch of trials lies in the memory of the module, in bytes. */
export interface Stretch {
  /** Columns one behind the other, `stride` bytes each, and as much room again behind `own`. */
  readonly columns: number;
  readonly own: number;
  readonly stride: number;
  /** Room for the figures, and as an array. */
  readonly figures: number;
  readonly figuresArray: Float64Array;
  /** The weights of the measure at hand, row by row. */
  readonly weights: number;
}

/** The rows of a measure's factor as they lie at `weights`. */
export const weightsOf = ({ factor }: Measure): readonly number[] => (factor === null ? [] : factor.flat());

/** The same figures, bit for bit, of an even number of trials. */
export function measureByKernel(kernel: Summaries, measure: Measure, place: Stretch, count: number): void {
  const { members, means, factor, deviations } = measure;
  const { columns, own, stride, figures, figuresArray, weights } = place;
  figuresArray.fill(0, 0, count);
  members.forEach((member, i) => {
    const column = columns + member * stride;
    if (factor !== null) {
      const row = weights + 8 * i * members.length;
      kernel.whiten(column, means[i]!, own + i * stride, own, stride, row, i, 1 / factor[i]![i]!, figures, count);
    } else if (deviations[i] !== 0) kernel.raise(column, means[i]!, 1 / deviations[i]!, figures, count);
  });
}
