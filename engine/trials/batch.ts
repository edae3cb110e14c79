import type { Coverage } from "../coverage/coverage.ts";
import { shortestInterval, symmetricInterval, type Interval } from "../coverage/coverage-interval.ts";
import { ModelError } from "../errors.ts";
import type { Model } from "../model.ts";
import type { Moments } from "../statistics/moments.ts";
import { BATCH_BINS, gridOver, type Grid } from "../statistics/grid.ts";
import { binnedSummary } from "../statistics/binned-summary.ts";
import { ownRoom, runBytes, type BinnedRun, type Room } from "../statistics/binned-run.ts";
import { BinnedSample } from "../statistics/binned-sample.ts";
import type { CountedState } from "../statistics/counted-sample.ts";
import { linearSumOf, type LinearisedModel } from "../paired/linearised-model.ts";
import { FEWEST_BEYOND, pairedDesign, type PairedDesign } from "../paired/paired-design.ts";
import { addBlock } from "../paired/add-block.ts";
import { noPairedSums, type PairedSums } from "../paired/paired-sums.ts";
import { withColumns } from "../random/block-generator.ts";
import { jointBatch, type JointBatch } from "../joint/joint-batch.ts";
import { BLOCK_TRIALS } from "../random/block.ts";
import { drawBlock, openDraws, type DrawSource } from "./draw.ts";
import { evaluateOnce } from "../evaluator/evaluate-once.ts";
import { evaluatorOf, plainEvaluatorOf } from "../evaluator/evaluator.ts";
import { openLeavingOut } from "./leave-out.ts";

/** The model values of one measurand from a batch of trials, binned. Plain data, since it moves between threads. */
export interface MeasurandBatch extends BinnedRun {
  /** The grid of the bins: the same for all batches of a study. */
  readonly grid: Grid;
  readonly moments: Moments;
  /**
   * The values, counted in place of `values` and `starts`, which are empty then: those of this batch and of further ones
   * that follow it, which have neither (`condensed.ts`).
   */
  readonly counted?: CountedState;
  /** The batch's own interval, of the kind that the study states. */
  readonly interval: Interval;
  /** What its trials have in common with those of the linearised model, and where that was asked; `null` without one. */
  readonly paired: { readonly design: PairedDesign; readonly sums: PairedSums } | null;
}

/** A batch: the trials from `first` on, summarised for each measurand in the model's order. */
export interface Batch {
  readonly first: number;
  readonly count: number;
  /** Trials that were left out since the model is undefined for them, and others drawn in their place. */
  readonly leftOut: number;
  readonly measurands: readonly MeasurandBatch[];
  /** Their joint figures, if there are several measurands. */
  readonly joint: JointBatch | null;
}

/**
 * J, the smallest integer ≥ 100/(1 − p) (JCGM 101, 7.9.4): with fewer trials, fewer than 50 of them lie beyond an endpoint.
 */
export function fewestTrials(probability: number): number {
  // 100/(1 − 0.95) is 1999.999… or 2000.000… in binary. A slack of the rounding of p keeps an integer J from being
  // rounded up.
  const exact = 100 / (1 - probability);
  return Math.ceil(exact - 1e-6 - (exact * 2 ** -53) / (1 - probability));
}

/** Trials with which an interval for p is usually known well: 10⁴/(1 − p) (JCGM 101, 7.2.2), as a multiple of J. */
export const recommendedTrials = (probability: number): number => 100 * fewestTrials(probability);

/** Trials in a batch (JCGM 101, 7.9.4): M = max(J, 10⁴), rounded up to whole blocks. */
export const batchTrials = (probability: number): number =>
  Math.ceil(Math.max(fewestTrials(probability), 10_000) / BLOCK_TRIALS) * BLOCK_TRIALS;

/** What is needed to draw trials and summarise them: nothing else may influence them. */
export interface TrialSource extends DrawSource {
  readonly model: Model;
  readonly coverage: Coverage;
  /** Whether the run continues until its figures stabilise: only then do batches compute what the stopping rule needs. */
  readonly settling: boolean;
  /** Whether trials for which the model is undefined are left out; if not, the first of them ends the run. */
  readonly leavesOut: boolean;
  /** The linearised model of each measurand; `null` where its trials are not drawn beside. */
  readonly linearised: readonly (LinearisedModel | null)[];
  /** Trials that the run is expected to have. */
  readonly expected: number;
}

/** Takes a block's values of a measurand's linearised model and of the model, and their place in the batch. */
type BesideBlock = (measurand: number, linearised: Float64Array, full: Float64Array, done: number) => void;

/**
 * Opens a study's trials. The returned function draws any range of them that starts on a block, in any order, on any
 * thread; the values are identical, bit for bit, every time.
 *
 * @param room memory for the values; a thread that draws for another passes memory that both share
 * @throws {ModelError} from the returned function: the first trial whose output is not finite, with its inputs
 */
export function openTrials(source: TrialSource, room: Room = ownRoom): (first: number, count: number) => Batch {
  const { model, coverage, settling } = source;
  const inputs = Object.keys(model.inputs);
  const measurands = Object.keys(model.measurands);
  const evaluate = evaluatorOf(model);
  const leavingOut = source.leavesOut ? openLeavingOut(source, plainEvaluatorOf(model)) : null;
  const draws = openDraws(source);
  const linearSums = source.linearised.map((linearised) => (linearised === null ? null : linearSumOf(linearised)));
  let grids: readonly Grid[] | null = null;
  let designs: readonly (PairedDesign | null)[] | null = null;
  let places = new Uint16Array(0);
  let values: readonly Float64Array[] = measurands.map(() => new Float64Array(0));

  /**
   * Writes trials from `first` on, as many as the arrays hold, and returns how many were left out.
   *
   * @param beside is given each block's values of the linearised models, if there are any, with those of the model
   */
  const fill = (into: readonly Float64Array[], first: number, beside: BesideBlock | null): number =>
    withColumns(inputs.length + 1, (columns) => {
      const count = into[0]!.length;
      const linearised = columns[inputs.length]!;
      let leftOut = 0;
      for (let done = 0; done < count; done += BLOCK_TRIALS) {
        const size = Math.min(BLOCK_TRIALS, count - done);
        drawBlock(draws, columns, (first + done) / BLOCK_TRIALS, size);
        const outputs = into.map((array) => array.subarray(done, done + size));
        if (leavingOut !== null) {
          leftOut += leavingOut(columns, outputs, (first + done) / BLOCK_TRIALS, size);
        } else {
          const failed = evaluate(columns, outputs, size);
          if (failed >= 0) reportFailure(model, inputs, columns, failed, first + done + failed);
        }
        if (beside === null) continue;
        linearSums.forEach((sum, m) => {
          if (sum === null) return;
          sum(columns, linearised, size);
          beside(m, linearised.subarray(0, size), outputs[m]!, done);
        });
      }
      return leftOut;
    });

  /** Every thread uses the same grid, that of the study's first block, which each thread draws again. */
  const gridsFrom = (drawn: readonly Float64Array[], first: number): readonly Grid[] => {
    const block =
      first === 0
        ? drawn.map((array) => array.subarray(0, BLOCK_TRIALS))
        : measurands.map(() => new Float64Array(BLOCK_TRIALS));
    if (first !== 0) fill(block, 0, null);
    return block.map((array) => gridOver(array));
  };

  /** Every thread looks for an endpoint at the same place, where the study's first blocks have it. */
  const designsOf = (): readonly (PairedDesign | null)[] => {
    if (linearSums.every((sum) => sum === null)) return linearSums.map(() => null);
    const tail = (1 - coverage.probability) / 2;
    const count = BLOCK_TRIALS * Math.ceil(FEWEST_BEYOND / (tail * BLOCK_TRIALS));
    const [full, beside] = [0, 1].map(() => measurands.map(() => new Float64Array(count))) as [
      Float64Array[],
      Float64Array[],
    ];
    fill(full, 0, (m, linearised, _, done) => beside[m]!.set(linearised, done));
    return source.linearised.map((linear, m) =>
      linear === null ? null : pairedDesign(beside[m]!, full[m]!, linear.unit, tail, source.expected),
    );
  };

  return (first, count) => {
    // Binning copies the values, so one array serves every batch, unless the batch also contains them in order of trial.
    if (measurands.length > 1 || values[0]!.length !== count)
      values = measurands.map(() => arrayIn(measurands.length > 1 ? room : ownRoom, count));
    designs ??= designsOf();
    const sums = designs.map((design) => (design === null ? null : noPairedSums()));
    const leftOut = fill(values, first, (m, linearised, full) => {
      if (sums[m] !== null) addBlock(sums[m]!, designs![m]!, linearised, full);
    });
    grids ??= gridsFrom(values, first);
    if (places.length < count) places = new Uint16Array(count);
    return {
      first,
      count,
      leftOut,
      measurands: values.map((array, i) => {
        const design = designs![i]!;
        return {
          ...summarise(array, grids![i]!, places, coverage, room),
          paired: design === null ? null : { design, sums: sums[i]! },
        };
      }),
      joint: values.length < 2 ? null : jointBatch(values, coverage.probability, settling),
    };
  };
}

/** Bytes that one batch takes of a room: for each measurand its run and, if there are several, the values in order of trial. */
export const batchBytes = (measurands: number, trials: number): number =>
  measurands * (runBytes(BATCH_BINS, trials) + (measurands > 1 ? 8 * trials : 0));

function arrayIn(room: Room, length: number): Float64Array {
  const { buffer, offset } = room(8 * length);
  return new Float64Array(buffer, offset, length);
}

/** Evaluates the failed trial again by the plain path, for an error with its inputs. @throws {ModelError} */
export function reportFailure(
  model: Model,
  inputs: readonly string[],
  columns: readonly Float64Array[],
  index: number,
  trial: number,
): never {
  const x = Object.fromEntries(inputs.map((name, i) => [name, columns[i]![index]!]));
  evaluateOnce(model, x, trial);
  throw new ModelError(
    `model ${model.id} gave another value when trial ${trial} was repeated; expected a pure function`,
    trial,
    x,
  );
}

function summarise(
  values: Float64Array,
  grid: Grid,
  places: Uint16Array,
  { probability, interval }: Coverage,
  room: Room,
): Omit<MeasurandBatch, "paired"> {
  const { run, moments } = binnedSummary(values, grid, places, room);
  const sample = new BinnedSample(grid, run);
  return {
    ...run,
    grid,
    moments,
    interval: (interval === "shortest" ? shortestInterval : symmetricInterval)(sample, probability),
  };
}
