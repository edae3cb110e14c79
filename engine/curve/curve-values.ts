import { ModelError } from "../errors.ts";
import { withProgram, type Evaluator } from "../evaluator/with-program.ts";
import type { CalibrationCurve, Model } from "../model.ts";
import { programOf, provideProgram } from "../native/programs.ts";
import type { Prepared } from "../prepared/prepare.ts";
import { withColumns } from "../random/block-generator.ts";
import { BLOCK_TRIALS } from "../random/block.ts";
import { openTrialColumns } from "../trials/trial-columns.ts";

/** The measurands of trials, batch by batch: one array for each, in the model's order. */
export type MeasurandColumns = readonly (readonly Float64Array[])[];

/** What the curve's function calls its argument, beside the measurands. */
const ARGUMENT = "argument";

/**
 * Opens a model's curve for trials whose measurands are known.
 *
 * @returns writes the curve's values at an argument to `out`, of the first trials, as many as it holds
 * @throws {ModelError} from that function: the first trial where the value is not finite, with its measurands
 */
export function openCurve(
  model: Model,
  curve: CalibrationCurve,
): (trials: MeasurandColumns, at: number, out: Float64Array) => void {
  const names = Object.keys(model.measurands);
  const parameters: Record<string, number> = Object.fromEntries(names.map((name) => [name, 0]));
  const plain: Evaluator = (columns, [values], size) => {
    const argument = columns[names.length]!;
    for (let t = 0; t < size; t++) {
      for (let j = 0; j < names.length; j++) parameters[names[j]!] = columns[j]![t]!;
      const value = curve.evaluate(parameters, argument[t]!);
      values![t] = value;
      if (!Number.isFinite(value)) return t;
    }
    return -1;
  };
  const along = {
    ...model,
    inputs: { ...model.measurands, [ARGUMENT]: curve.argument },
    measurands: { value: curve.value },
    evaluate: () => 0,
  };
  // One function for the program of this curve, which goes over to it after a few of its own blocks.
  if (!names.includes(ARGUMENT))
    provideProgram(along.evaluate, () => programOf(curve.evaluate)?.program() ?? null, "ofManyPoints");
  const run = withProgram(plain, along);
  return (trials, at, out) =>
    withColumns(names.length + 1, (columns) => {
      columns[names.length]!.fill(at);
      let done = 0;
      for (const batch of trials) {
        const last = Math.min(batch[0]!.length, out.length - done);
        for (let from = 0; from < last; from += BLOCK_TRIALS) {
          const size = Math.min(BLOCK_TRIALS, last - from);
          batch.forEach((column, j) => columns[j]!.set(column.subarray(from, from + size)));
          const failed = run(columns, [out.subarray(done + from, done + from + size)], size);
          if (failed < 0) continue;
          const found = Object.fromEntries(names.map((name, j) => [name, columns[j]![failed]!]));
          reportFailure(model, found, at, curve.evaluate(found, at), done + from + failed);
        }
        done += last;
      }
    });
}

function reportFailure(
  model: Model,
  parameters: Readonly<Record<string, number>>,
  at: number,
  value: number,
  trial: number,
): never {
  const given = Object.entries(parameters).map(([name, y]) => `${name} = ${y}`);
  throw new ModelError(
    `the calibration curve of model ${model.id} gave ${value} at ${at} at trial ${trial} (${given.join(", ")}); expected a finite number over its whole range`,
    trial,
    parameters,
  );
}

/** The measurands of a run's first trials, drawn again: identical bit for bit. */
export function firstTrialsAgain({ source, batch }: Prepared, count: number): MeasurandColumns {
  const draw = openTrialColumns(source);
  const trials: (readonly Float64Array[])[] = [];
  for (let first = 0; first < count; first += batch)
    trials.push(draw(first, Math.min(batch, count - first)).measurands);
  return trials;
}
