import { refuse } from "../errors.ts";
import type { Model } from "../model.ts";
import { prepare } from "../prepared/prepare.ts";
import type { DefinedStudy, Study, StudyOf } from "../study/study.ts";
import { readGiven, type Given } from "../study/given.ts";
import { openTrialColumns } from "../trials/trial-columns.ts";

/** Trials one after the other: the values of every quantity, in its unit, in the order of the trials. */
export interface TrialBlock<I extends string = string, O extends string = string, P extends string = never> {
  /** The number of the first trial, from 0. */
  readonly first: number;
  /** Trials in the block: the length of each array. */
  readonly count: number;
  readonly inputs: Readonly<Record<I, Float64Array>> & Readonly<Partial<Record<P, Float64Array>>>;
  readonly measurands: Readonly<Record<O, Float64Array>>;
}

/** How `drawTrials` draws. */
export interface DrawOptions {
  /** How many trials; the study's own number if it is left out, which an adaptive study does not have. */
  readonly trials?: number;
}

/**
 * Draws the trials of a study one block after the other, with the values of the inputs: those on which its record rests, bit
 * for bit. Memory is that of one block, so that any number can be written to a file.
 *
 * @throws {InputError} a study that cannot be used, or one whose number of trials is stated nowhere
 * @throws {ModelError} from the iteration: the first trial whose value is not a finite number
 *
 * @example
 * for (const { first, measurands } of drawTrials(density, study)) write(first, measurands.density);
 */
export function drawTrials<I extends string, O extends string, P extends string = never>(
  study: DefinedStudy<I, O, P>,
  options?: DrawOptions,
): Generator<TrialBlock<I, O, P>, void, void>;
export function drawTrials<I extends string, O extends string, P extends string = never>(
  model: Model<I, O, P>,
  study: Study,
  options?: DrawOptions,
): Generator<TrialBlock<I, O, P>, void, void>;
export function drawTrials<I extends string, O extends string, P extends string = never>(
  model: Model<I, O, P>,
  study: StudyOf<I, P>,
  options?: DrawOptions,
): Generator<TrialBlock<I, O, P>, void, void>;
export function drawTrials(...given: Given<DrawOptions>): Generator<TrialBlock, void, void> {
  const { model, study, options } = readGiven(given);
  const trials = options?.trials ?? study.trials;
  if (trials === "adaptive") refuse("trials", trials, "a number of trials, in the study or among the options");
  if (!Number.isInteger(trials) || trials < 1) refuse("trials", trials, "a whole number of at least 1");
  return blocks(model, study, trials);
}

function* blocks(declared: Model, study: Study, trials: number): Generator<TrialBlock, void, void> {
  const { source, batch } = prepare(declared, study);
  const { model } = source;
  const draw = openTrialColumns(source);
  const named = (names: readonly string[], columns: readonly Float64Array[]): Record<string, Float64Array> =>
    Object.fromEntries(names.map((name, i) => [name, columns[i]!]));
  for (let first = 0; first < trials; first += batch) {
    const count = Math.min(batch, trials - first);
    const { inputs, measurands } = draw(first, count);
    yield {
      first,
      count,
      inputs: named(Object.keys(model.inputs), inputs),
      measurands: named(Object.keys(model.measurands), measurands),
    };
  }
}
