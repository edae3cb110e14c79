import { Accumulation } from "./accumulate.ts";
import type { Model } from "../model.ts";
import { prepare } from "../prepared/prepare.ts";
import { assembleRecord } from "./assemble.ts";
import type { RecordOf } from "../record/record-of.ts";
import type { RunRecord } from "../record/record.ts";
import { readGiven, type Given } from "../study/given.ts";
import type { DefinedStudy, Study, StudyOf } from "../study/study.ts";
import { figuresOfPoint, studiesOfSweep, sweepRecord, type PointFigures } from "./sweep.ts";
import { openTrials } from "../trials/batch.ts";

/** What asks a run to stop: an `AbortSignal` is one. */
export interface CancelSignal {
  readonly aborted: boolean;
  /** What the run then throws. */
  readonly reason?: unknown;
}

/** How far a run is. */
export interface Progress {
  /** Trials made so far. */
  readonly trials: number;
  /** The greatest number to come; an adaptive run mostly needs fewer. */
  readonly limit: number;
}

/** What may be asked of a propagation beside its study: word of its progress, and a way to stop it. */
export interface PropagateOptions {
  /** Called after every batch of trials. */
  readonly onProgress?: (progress: Progress) => void;
  /** Looked at before every batch. Nothing else runs on this thread meanwhile but `onProgress`, which may abort it. */
  readonly signal?: CancelSignal;
}

/**
 * Propagates the distributions of a study through its model, in this thread, and adds the linear budget. This is
 * the reference that work on several threads must reproduce exactly, bit for bit.
 *
 * @param model the model; the study's own `model` field is not looked up
 * @param study a study for this model, or one that `readStudy` has checked
 * @returns the record, whose inputs and measurands have the names that the model declares
 * @throws {InputError} a study that cannot be used: every problem with its place, the value and what is expected
 * @throws {ModelError} a model that throws, or a value that is not a finite number, with the trial and its inputs
 * @throws the signal's reason, if it was aborted
 *
 * @example
 * const record = propagate(density, {
 *   title: "Density of the check weight",
 *   inputs: {
 *     mass: { distribution: "normal", estimate: 1.0002, standardUncertainty: 0.0001 },
 *     volume: { distribution: "rectangular", estimate: 1.25e-4, halfWidth: 2e-7 },
 *   },
 * });
 * record.measurands.density.validation.sentence;
 */
export function propagate<I extends string, O extends string, P extends string = never>(
  study: DefinedStudy<I, O, P>,
  options?: PropagateOptions,
): RecordOf<I, O, P>;
export function propagate<I extends string, O extends string, P extends string = never>(
  model: Model<I, O, P>,
  study: Study,
  options?: PropagateOptions,
): RecordOf<I, O, P>;
export function propagate<I extends string, O extends string, P extends string = never>(
  model: Model<I, O, P>,
  study: StudyOf<I, P>,
  options?: PropagateOptions,
): RecordOf<I, O, P>;
export function propagate(...given: Given<PropagateOptions>): RunRecord {
  const { model, study, options } = readGiven(given);
  return carriedOut(steps(model, study, true), options ?? {});
}

/**
 * The same propagation in steps, for a program that must do other things between two batches: a page that stays alive, a
 * queue that looks for a cancel. It yields how far it is after every batch, and returns the record.
 *
 * @throws as `propagate`, from `next()`
 *
 * @example
 * const running = propagation(density, study);
 * let step = running.next();
 * while (!step.done) {
 *   show(step.value.trials);
 *   await new Promise((resolve) => setTimeout(resolve));
 *   step = running.next();
 * }
 * step.value.measurands.density.monteCarlo.estimate;
 */
export function propagation<I extends string, O extends string, P extends string = never>(
  study: DefinedStudy<I, O, P>,
): Generator<Progress, RecordOf<I, O, P>, void>;
export function propagation<I extends string, O extends string, P extends string = never>(
  model: Model<I, O, P>,
  study: Study,
): Generator<Progress, RecordOf<I, O, P>, void>;
export function propagation<I extends string, O extends string, P extends string = never>(
  model: Model<I, O, P>,
  study: StudyOf<I, P>,
): Generator<Progress, RecordOf<I, O, P>, void>;
export function propagation(...given: Given<undefined>): Generator<Progress, RunRecord, void> {
  const { model, study } = readGiven(given);
  return steps(model, study, true);
}

function carriedOut<R>(running: Generator<Progress, R, void>, { onProgress, signal }: PropagateOptions): R {
  for (;;) {
    if (signal?.aborted) throw signal.reason ?? new Error("the propagation was cancelled");
    const step = running.next();
    if (step.done) return step.value;
    onProgress?.(step.value);
  }
}

function* steps(model: Model, study: Study, complete: boolean): Generator<Progress, RunRecord, void> {
  const prepared = prepare(model, study);
  // Before the trials, so that a point that cannot be used is refused at once.
  for (const point of studiesOfSweep(study)) prepare(model, point);
  const draw = openTrials(prepared.source);
  const gathered = new Accumulation(prepared);
  for (let count = gathered.next; count > 0; count = gathered.next) {
    gathered.add(draw(gathered.trials, count));
    yield { trials: gathered.trials, limit: prepared.limit };
  }
  const points: PointFigures[] = [];
  for (const point of studiesOfSweep(study)) points.push(figuresOfPoint(yield* steps(model, point, false), point));
  return assembleRecord(prepared, gathered, complete, sweepRecord(study, points));
}
