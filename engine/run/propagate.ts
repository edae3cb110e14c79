import { Accumulation } from "./accumulate.ts";
import type { Model } from "../model.ts";
import { prepare } from "../prepared/prepare.ts";
import { assembleRecord } from "./assemble.ts";
import type { RunRecord } from "../record/record.ts";
import { readStudy, type Study } from "../study/study.ts";
import { studiesOfSweep, sweepRecord } from "./sweep.ts";
import { openTrials } from "../trials/batch.ts";

/**
 * Propagates the distributions of a study through its model, in this thread, and adds the linear budget. This is
 * the reference that work on several threads must reproduce exactly, bit for bit.
 *
 * @param document a study, as JSON would give it; its `model` field is not looked up, `model` is used
 * @param onProgress called after every batch with the number of trials made and the greatest number to come
 * @throws {InputError} a study that cannot be used
 * @throws {ModelError} a model value that is not a finite number
 *
 * @example
 * const record = propagate(density, {
 *   title: "Density of the check weight",
 *   model: "density",
 *   inputs: {
 *     mass: { distribution: "normal", estimate: 1.0002, standardUncertainty: 0.0001 },
 *     volume: { distribution: "rectangular", estimate: 1.25e-4, halfWidth: 2e-7 },
 *   },
 * });
 * record.measurands.density.validation.sentence;
 */
export function propagate<I extends string, O extends string>(
  model: Model<I, O>,
  document: unknown,
  onProgress?: (trials: number, limit: number) => void,
): RunRecord {
  return run(model as unknown as Model, readStudy(document), true, onProgress);
}

function run(
  model: Model,
  study: Study,
  complete: boolean,
  onProgress?: (trials: number, limit: number) => void,
): RunRecord {
  const prepared = prepare(model, study);
  // Before the trials, so that a point that cannot be used is refused at once.
  for (const point of studiesOfSweep(study)) prepare(model, point);
  const draw = openTrials(prepared.source);
  const gathered = new Accumulation(prepared);
  for (let count = gathered.next; count > 0; count = gathered.next) {
    gathered.add(draw(gathered.trials, count));
    onProgress?.(gathered.trials, prepared.limit);
  }
  const points = studiesOfSweep(study).map((point) => run(model, point, false));
  return assembleRecord(prepared, gathered, complete, sweepRecord(study, points));
}
