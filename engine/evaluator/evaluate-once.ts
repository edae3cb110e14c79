import { ModelError } from "../errors.ts";
import type { Model } from "../model.ts";
import { trialObjects } from "./trial-object.ts";

/** The message of a thrown value. */
const messageOf = (cause: unknown): string => JSON.stringify(cause instanceof Error ? cause.message : String(cause));

/** The value a model returns at one set of input values, passed in the object shape that all its trials have. */
export function outputsAt<I extends string, O extends string>(
  model: Model<I, O>,
  inputs: Readonly<Record<I, number>>,
): unknown {
  const x = trialObjects(model.inputs)();
  for (const name in x) x[name] = inputs[name as I];
  return model.evaluate(x as Record<I, number>);
}

/**
 * One measurand at one set of input values, for code that samples a model near its estimates.
 *
 * @returns NaN if the model throws, or is undefined there
 */
export function measurandAt<I extends string, O extends string>(
  model: Model<I, O>,
  inputs: Readonly<Record<I, number>>,
  measurand: O,
): number {
  try {
    const outputs = outputsAt(model, inputs);
    return typeof outputs === "number" ? outputs : (outputs as Readonly<Record<O, number>>)[measurand];
  } catch {
    return Number.NaN;
  }
}

/**
 * One measurand with one input moved off its estimate: only that input is set anew, so that a value costs what the model
 * costs, however many inputs there are.
 *
 * @returns NaN if the model throws, or is undefined there
 */
export function measurandAround<I extends string, O extends string>(
  model: Model<I, O>,
  estimates: Readonly<Record<I, number>>,
  measurand: O,
): (input: I, value: number) => number {
  const x = trialObjects(model.inputs)() as Record<I, number>;
  for (const name in x) x[name] = estimates[name];
  return (input, value) => {
    x[input] = value;
    try {
      const outputs: unknown = model.evaluate(x);
      return typeof outputs === "number" ? outputs : (outputs as Readonly<Record<O, number>>)[measurand];
    } catch {
      return Number.NaN;
    } finally {
      x[input] = estimates[input];
    }
  };
}

/** The model's exception at one set of input values, as the end of a message; empty if it throws none. */
export function thrownBy(model: Model, inputs: Readonly<Record<string, number>>): string {
  try {
    outputsAt(model, inputs);
    return "";
  } catch (cause) {
    return ` (it threw ${messageOf(cause)})`;
  }
}

/** The measurands at one set of input values. @throws {ModelError} an output that is missing or not finite, or an exception */
export function evaluateOnce<I extends string, O extends string>(
  model: Model<I, O>,
  inputs: Readonly<Record<I, number>>,
  trial: number | null = null,
): Readonly<Record<O, number>> {
  const names = Object.keys(model.measurands) as O[];
  let outputs: unknown;
  try {
    outputs = outputsAt(model, inputs);
  } catch (cause) {
    throw new ModelError(
      `model ${model.id} threw ${messageOf(cause)} ${where(inputs, trial)}; ${ACCEPTED}`,
      trial,
      inputs,
    );
  }
  const values = {} as Record<O, number>;
  for (const name of names) {
    const value =
      typeof outputs === "number" && names.length === 1 ? outputs : (outputs as Record<string, unknown> | null)?.[name];
    if (typeof value !== "number" || !Number.isFinite(value)) {
      throw new ModelError(
        `model ${model.id} returned ${typeof value === "number" ? value : typeof value} for ${name} ${where(inputs, trial)}; ` +
          `${ACCEPTED}${model.whyNoRoot === undefined ? "" : `; ${model.whyNoRoot(inputs)}`}`,
        trial,
        inputs,
      );
    }
    values[name] = value;
  }
  return values;
}

function where(inputs: Readonly<Record<string, number>>, trial: number | null): string {
  const given = Object.entries(inputs)
    .map(([name, x]) => `${name} = ${x}`)
    .join(", ");
  return `${trial === null ? "at the estimates of its inputs" : `at trial ${trial}`} (${given})`;
}

const ACCEPTED = "expected a finite number for every measurand";
