import { ModelError } from "../errors.ts";
import type { Model } from "../model.ts";
import { trialObjects } from "./trial-object.ts";

/** What a model returns at one set of input values, which it is given in the shape that all its trials have. */
export function outputsAt<I extends string, O extends string>(
  model: Model<I, O>,
  inputs: Readonly<Record<I, number>>,
): unknown {
  const x = trialObjects(model.inputs)();
  for (const name in x) x[name] = inputs[name as I];
  return model.evaluate(x as Record<I, number>);
}

/** The measurands at one set of input values. @throws {ModelError} an output that is missing or not finite */
export function evaluateOnce<I extends string, O extends string>(
  model: Model<I, O>,
  inputs: Readonly<Record<I, number>>,
  trial: number | null = null,
): Readonly<Record<O, number>> {
  const names = Object.keys(model.measurands) as O[];
  const outputs = outputsAt(model, inputs);
  const values = {} as Record<O, number>;
  for (const name of names) {
    const value =
      typeof outputs === "number" && names.length === 1 ? outputs : (outputs as Record<string, unknown> | null)?.[name];
    if (typeof value !== "number" || !Number.isFinite(value)) throw notFinite(model, name, value, inputs, trial);
    values[name] = value;
  }
  return values;
}

function notFinite(
  model: Model,
  measurand: string,
  value: unknown,
  inputs: Readonly<Record<string, number>>,
  trial: number | null,
): ModelError {
  const where = trial === null ? "at the estimates of its inputs" : `at trial ${trial}`;
  const given = Object.entries(inputs)
    .map(([name, x]) => `${name} = ${x}`)
    .join(", ");
  return new ModelError(
    `model ${model.id} returned ${typeof value === "number" ? value : typeof value} for ${measurand} ${where} (${given}); ` +
      `accepted is a finite number for every measurand${model.whyNoRoot === undefined ? "" : `; ${model.whyNoRoot(inputs)}`}`,
    trial,
    inputs,
  );
}
