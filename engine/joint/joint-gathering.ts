import gammaQuantile from "@stdlib/stats-base-dists-gamma-quantile";
import { normalQuantile } from "../numerics/standard-normal.ts";
import type { Matrix } from "../numerics/matrix.ts";
import { symmetricEigen } from "../numerics/symmetric-eigen.ts";
import { KEPT_TRIALS } from "../statistics/kept-trials.ts";
import { RunningFigure, type RunningFigureState } from "../statistics/running-figure.ts";
import { numericalTolerance } from "../validation/numerical-tolerance.ts";
import { correlationMatrix, covarianceMatrix, mergeCoMoments, type CoMoments } from "./co-moments.ts";
import { deviationMeasure, distanceMeasure, type Measure } from "./measure.ts";
import { searchRegions } from "./region-search.ts";
import type { JointBatch } from "./joint-batch.ts";
import type { JointRecord, PairRecord } from "../record/joint.ts";
import type { Tolerance } from "../tolerance.ts";
import { PairGridCounter } from "./pair-grid.ts";

const MOST_PAIRS = 10;
const SCATTER = 500;
/** Sums of squares within these keep their digits, also once they are merged. */
const LEAST_SQUARES = 1e-290;
const MOST_SQUARES = 1e290;

/** Whether the sum of squares of values that vary leaves the range of a double. */
const isBeyond = (squares: number, values: Float64Array): boolean =>
  !(squares > LEAST_SQUARES && squares < MOST_SQUARES) && values.some((value) => value !== values[0]);

/** The joint figures so far, as plain data. */
export interface JointState {
  readonly coMoments: CoMoments | null;
  /** Columns of the first trials, batch by batch. */
  readonly batches: readonly (readonly Float64Array[])[];
  readonly eigenvalue: RunningFigureState;
  readonly factor: RunningFigureState;
  readonly singular: boolean;
}

/** Accumulates the joint figures of several measurands from batches, in order. */
export class JointGathering {
  readonly #digits: 1 | 2;
  #coMoments: CoMoments | null = null;
  /** Columns of the first trials, for regions and pictures; means and covariances come from all trials. */
  readonly #batches: (readonly Float64Array[])[] = [];
  #kept = 0;
  readonly #eigenvalue: RunningFigure;
  readonly #factor: RunningFigure;
  #singular = false;
  #beyond = false;

  /** @param from goes on from there */
  constructor(digits: 1 | 2, from?: JointState) {
    this.#digits = digits;
    this.#eigenvalue = new RunningFigure(from?.eigenvalue);
    this.#factor = new RunningFigure(from?.factor);
    if (from === undefined) return;
    this.#coMoments = from.coMoments;
    this.#batches.push(...from.batches);
    this.#kept = from.batches.reduce((sum, [column]) => sum + column!.length, 0);
    this.#singular = from.singular;
  }

  /** The figures as plain data; its arrays are never written again. */
  get state(): JointState {
    return {
      coMoments: this.#coMoments,
      batches: [...this.#batches],
      eigenvalue: this.#eigenvalue.state,
      factor: this.#factor.state,
      singular: this.#singular,
    };
  }

  /** Columns of the first trials, batch by batch. */
  get kept(): readonly (readonly Float64Array[])[] {
    return this.#batches;
  }

  /** @param whole whether the batch counts for the stopping rule: a shortened last one does not */
  add(batch: JointBatch, whole: boolean): void {
    this.#coMoments = mergeCoMoments(this.#coMoments, batch.coMoments);
    this.#beyond ||= batch.columns.some((column, i) => isBeyond(batch.coMoments.products[i]![i]!, column));
    const count = batch.columns[0]!.length;
    if (this.#coMoments.count <= KEPT_TRIALS) {
      this.#batches.push(batch.columns);
      this.#kept += count;
    }
    if (!whole) return;
    this.#eigenvalue.add(batch.greatestEigenvalue);
    if (batch.ellipsoidFactor === null) this.#singular = true;
    else this.#factor.add(batch.ellipsoidFactor);
  }

  /**
   * JCGM 102, 7.8: besides each y_j and u(y_j), the largest eigenvalue of the correlation matrix and k_p stabilise to
   * tolerances derived from their own values.
   */
  settled(divisor: number): boolean {
    if (this.#beyond) return true;
    const watched = this.#singular ? [this.#eigenvalue] : [this.#eigenvalue, this.#factor];
    return watched.every(
      (figure) => 2 * figure.standardError <= numericalTolerance(figure.mean, this.#digits) / divisor,
    );
  }

  /**
   * @param linearCovariance that of the linear budget
   * @param exists whether the distribution has a covariance at all
   * @returns `null` if the covariances leave the range of a double
   */
  result(names: readonly string[], probability: number, linearCovariance: Matrix, exists: boolean): JointRecord | null {
    if (this.#beyond || !linearCovariance.flat().every(Number.isFinite)) return null;
    const m = names.length;
    const coMoments = this.#coMoments!;
    const covariance = covarianceMatrix(coMoments);
    const correlation = correlationMatrix(covariance);
    const regions = exists ? this.#regions(names, coMoments.means, covariance, probability) : null;
    return {
      measurands: names,
      linear: { covariance: linearCovariance, correlation: correlationMatrix(linearCovariance) },
      monteCarlo: exists
        ? { covariance, correlation, greatestEigenvalue: symmetricEigen(correlation).values.at(-1)! }
        : null,
      probability,
      ellipsoid:
        regions === null || regions.ellipsoid === null
          ? null
          : { factor: regions.ellipsoid, normalFactor: Math.sqrt(2 * gammaQuantile(probability, m / 2, 1)) },
      rectangle:
        regions === null
          ? null
          : { factor: regions.rectangle, normalFactor: normalQuantile(1 - (1 - probability) / m / 2) },
      pairs: regions?.pairs ?? [],
    };
  }

  /** k_p of the ellipsoid over all measurands alone; `null` where `result` has none. */
  ellipsoidFactor(probability: number): number | null {
    if (this.#beyond) return null;
    const { means } = this.#coMoments!;
    const all = means.map((_, i) => i);
    const measure = distanceMeasure(means, covarianceMatrix(this.#coMoments!), all);
    return measure === null ? null : Math.sqrt(searchRegions(this.#batches, [measure], probability)[0]!);
  }

  /** All regions in one pass over the trials. */
  #regions(
    names: readonly string[],
    means: readonly number[],
    covariance: Matrix,
    probability: number,
  ): {
    readonly ellipsoid: number | null;
    readonly rectangle: number;
    readonly pairs: readonly PairRecord[];
  } {
    const all = means.map((_, i) => i);
    const found = names.flatMap((_, i) => names.slice(i + 1).map((__, j) => [i, i + 1 + j] as const));
    const pairs = found.slice(0, MOST_PAIRS).map((pair) => ({
      pair,
      measure: distanceMeasure(means, covariance, pair),
      grid: new PairGridCounter(
        [means[pair[0]]!, means[pair[1]]!],
        [Math.sqrt(covariance[pair[0]]![pair[0]]!), Math.sqrt(covariance[pair[1]]![pair[1]]!)],
      ),
    }));
    const ellipsoid = distanceMeasure(means, covariance, all);
    const rectangle = deviationMeasure(means, covariance);
    const measures = [ellipsoid, rectangle, ...pairs.map(({ measure }) => measure)].filter((one) => one !== null);
    const values = searchRegions(this.#batches, measures, probability, pairs);
    const factorOf = (measure: Measure | null): number | null =>
      measure === null ? null : Math.sqrt(values[measures.indexOf(measure)]!);
    const first = this.#batches[0]!;
    return {
      ellipsoid: factorOf(ellipsoid),
      rectangle: values[measures.indexOf(rectangle)]!,
      pairs: pairs.map(({ pair: [i, j], measure, grid }) => ({
        between: [names[i]!, names[j]!],
        ellipseFactor: factorOf(measure),
        grid: grid.result(probability),
        scatter: Array.from(
          { length: Math.min(SCATTER, first[i]!.length) },
          (_, t) => [first[i]![t]!, first[j]![t]!] as const,
        ),
      })),
    };
  }

  /**
   * Whether all measurands with a tolerance lie within it at once, by the trials kept; `undefined` if fewer than two have
   * one.
   *
   * @param tolerances one for each of `names`, `null` if it has none
   */
  conformity(names: readonly string[], tolerances: readonly (Tolerance | null)[]): JointRecord["conformity"] {
    const judged = tolerances.flatMap((tolerance, i) => (tolerance === null ? [] : [{ tolerance, i }]));
    if (judged.length < 2) return undefined;
    const within = judged.map(() => 0);
    let together = 0;
    for (const columns of this.#batches) {
      const inside = new Uint8Array(columns[0]!.length).fill(1);
      judged.forEach(({ tolerance, i }, j) => {
        const { lower, upper } = tolerance;
        const column = columns[i]!;
        for (let t = 0; t < column.length; t++) {
          if (column[t]! >= (lower ?? -Infinity) && column[t]! <= (upper ?? Infinity)) within[j]! += 1;
          else inside[t] = 0;
        }
      });
      for (const one of inside) together += one;
    }
    const M = this.#kept;
    const probability = together / M;
    return {
      measurands: judged.map(({ i }) => names[i]!),
      probability,
      standardError: Math.sqrt((probability * (1 - probability)) / M),
      ifIndependent: within.reduce((product, count) => product * (count / M), 1),
      trials: M,
    };
  }
}
