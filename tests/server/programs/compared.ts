import { plainEvaluatorOf } from "../../../engine/evaluator/evaluator.ts";
import { drawTrials, readStudy, type Model } from "../../../engine/index.ts";
import type { Program } from "../../../engine/internal.ts";
import { nativeRun } from "../../../engine/native/native-run.ts";
import { kernelOfThread, withColumns } from "../../../engine/random/block-generator.ts";
import { models } from "../../../models/index.ts";

export interface Compared {
  /** Trials whose outputs are those of the plain path, bit for bit. */
  readonly equal: number;
  /** Trials that the program left to the plain path, although they have a result. */
  readonly left: number;
  /** Trials with any other output. */
  readonly different: number;
  /** Whether the program said rightly if all outputs are finite. */
  readonly told: boolean;
}

/** Runs a model's program and its plain evaluator over the same trials. `null` if the program cannot be run. */
export function compared(model: Model, program: Program, trials: readonly (readonly number[])[]): Compared | null {
  const inputs = Object.keys(model.inputs);
  const measurands = Object.keys(model.measurands);
  const kernel = kernelOfThread()!;
  const run = nativeRun(kernel, program, inputs, measurands);
  if (run === null) return null;
  const plain = plainEvaluatorOf(model);
  return withColumns(inputs.length, (columns) => {
    inputs.forEach((_, i) => trials.forEach((values, t) => (columns[i]![t] = values[i]!)));
    const native = kernel.outputs(measurands.length);
    const [from, to] = [columns, native].map((arrays) => arrays.map((array) => kernel.addressOf(array)));
    const finite = run(from!, to!, trials.length);
    const one = measurands.map(() => new Float64Array(1));
    let [equal, left, different] = [0, 0, 0];
    trials.forEach((_, t) => {
      const failed = plain(
        columns.map((column) => column.subarray(t, t + 1)),
        one,
        1,
      );
      const results = native.map((array) => array[t]!);
      if (failed >= 0) {
        if (results.every(Number.isFinite)) different += 1;
        else equal += 1;
      } else if (results.every((value, m) => Object.is(value, one[m]![0]))) equal += 1;
      else if (results.every(Number.isNaN)) left += 1;
      else different += 1;
    });
    const all = native.every((array) => array.subarray(0, trials.length).every(Number.isFinite));
    return { equal, left, different, told: finite === all };
  });
}

/** A study of each registered model that the build has a program of. */
export const STUDIES_OF_PROGRAMS = [
  "harrowfen/freezer-minus-40",
  "platinum/two-wire-pasteuriser",
  "verdicts/curvature",
  "published/mass-calibration",
  "published/comparison-loss-00",
  "published/gauge-block",
  "published/common-term-rectangular",
  "published/polar-001",
  "published/end-gauge",
  "published/impedance",
] as const;

/** Trials of each. */
const TRIALS = 2500;

/**
 * The programs of a build over the trials of studies, by model; nothing of a model without one. Pure, so that every host can
 * be asked.
 *
 * @param documents studies as JSON has them
 */
export function comparedOnStudies(
  programs: Readonly<Record<string, Program>>,
  documents: readonly (Readonly<Record<string, unknown>> & { readonly model: string })[],
): Record<string, Compared | null> {
  return Object.fromEntries(
    documents.flatMap((document) => {
      const model = models.find(({ id }) => id === document.model);
      if (model === undefined || "build" in model || programs[model.id] === undefined) return [];
      const [block] = drawTrials(model, readStudy(document), { trials: TRIALS });
      const columns: Readonly<Record<string, Float64Array>> = block!.inputs;
      const trials = Array.from({ length: TRIALS }, (_, t) =>
        Object.keys(model.inputs).map((name) => columns[name]?.[t] ?? 0),
      );
      return [[model.id, compared(model, programs[model.id]!, trials)]];
    }),
  );
}

const ALL_EQUAL: Compared = { equal: TRIALS, left: 0, different: 0, told: true };

/** What is to be found: all trials alike, of every registered model that has a program. */
export const allEqual = (programs: Readonly<Record<string, Program>>): Record<string, Compared> =>
  Object.fromEntries(models.filter(({ id }) => programs[id] !== undefined).map(({ id }) => [id, ALL_EQUAL]));
