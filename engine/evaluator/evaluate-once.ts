import { ModelError } from "../errors.ts";
import type { Model } from "../model.ts";
import { trialObjects } from "./trial-object.ts";
import { messageOf, returnedText, undeclaredReads, whereThrown } from "./what-went-wrong.ts";

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
 * One measurand about the estimates, for code that moves a few inputs at a time: a value costs what the model costs, however
 * many inputs there are.
 *
 * @returns the point, in which inputs are moved and put back, and the value at it: NaN if the model throws, or is undefined there
 */
export function measurandNear<I extends string, O extends string>(
  model: Model<I, O>,
  estimates: Readonly<Record<I, number>>,
  measurand: O,
): { readonly point: Record<I, number>; value(this: void): number } {
  const point = trialObjects(model.inputs)() as Record<I, number>;
  for (const name in point) point[name] = estimates[name];
  return {
    point,
    value: () => {
      try {
        const outputs: unknown = model.evaluate(point);
        return typeof outputs === "number" ? outputs : (outputs as Readonly<Record<O, number>>)[measurand];
      } catch {
        return Number.NaN;
      }
    },
  };
}

/**
 * Measurands with one input moved off its estimate: NaN if the model throws, or is undefined there. A value that several
 * measurands are asked at costs one evaluation of the model.
 */
export function measurandsAround<I extends string, O extends string>(
  model: Model<I, O>,
  estimates: Readonly<Record<I, number>>,
): (measurand: O) => (input: I, value: number) => number {
  const names = Object.keys(model.measurands) as O[];
  if (names.length === 1) {
    return (measurand) => {
      const { point, value } = measurandNear(model, estimates, measurand);
      return (input, at) => {
        point[input] = at;
        const found = value();
        point[input] = estimates[input];
        return found;
      };
    };
  }
  const point = trialObjects(model.inputs)() as Record<I, number>;
  for (const name in point) point[name] = estimates[name];
  const known = new Map<I, ValuesOfInput>();
  const at = (input: I, value: number): Float64Array => {
    let ofInput = known.get(input);
    if (ofInput === undefined) known.set(input, (ofInput = { asked: [], found: [], places: new Map(), next: 0 }));
    const { asked, found, places, next } = ofInput;
    if (asked[next] === value) {
      ofInput.next = next + 1;
      return found[next]!;
    }
    const place = places.get(value);
    ofInput.next = (place ?? asked.length) + 1;
    if (place !== undefined) return found[place]!;
    const values = new Float64Array(names.length);
    point[input] = value;
    try {
      // Copied: a model may write each trial's values into one object.
      const outputs = model.evaluate(point) as Readonly<Record<O, number>>;
      for (let i = 0; i < names.length; i++) values[i] = outputs[names[i]!];
    } catch {
      values.fill(Number.NaN);
    }
    point[input] = estimates[input];
    places.set(value, asked.length);
    asked.push(value);
    found.push(values);
    return values;
  };
  return (measurand) => {
    const place = names.indexOf(measurand);
    return (input, value) => at(input, value)[place]!;
  };
}

/** The measurands at values of one input, in the order in which they were first asked for. */
interface ValuesOfInput {
  readonly asked: number[];
  readonly found: Float64Array[];
  readonly places: Map<number, number>;
  /** The place that is asked for next as a rule: most measurands are asked at the same values, one after the other. */
  next: number;
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

/**
 * The measurands at one set of input values.
 *
 * @throws {ModelError} an output that is missing or not finite, or an exception: with the trial, its inputs and, where the host
 *   states it, the place in the model's file
 */
export function evaluateOnce<I extends string, O extends string>(
  model: Model<I, O>,
  inputs: Readonly<Record<I, number>>,
  trial?: number | null,
): Readonly<Record<O, number>>;
export function evaluateOnce(
  model: Model,
  inputs: Readonly<Record<string, number>>,
  trial: number | null = null,
): Readonly<Record<string, number>> {
  const names = Object.keys(model.measurands);
  const failed = (what: string, end: string): ModelError =>
    new ModelError(`model ${model.id} ${what} ${where(inputs, trial)}; ${ACCEPTED}${end}`, trial, inputs);
  let outputs: unknown;
  try {
    outputs = outputsAt(model, inputs);
  } catch (cause) {
    throw failed(`threw ${messageOf(cause)}`, `${undeclaredReads(model, inputs)}${whereThrown(cause)}`);
  }
  const values: Record<string, number> = {};
  for (const name of names) {
    const value =
      typeof outputs === "number" && names.length === 1 ? outputs : (outputs as Record<string, unknown> | null)?.[name];
    if (typeof value !== "number" || !Number.isFinite(value)) {
      const why = model.whyNoRoot === undefined ? "" : `; ${model.whyNoRoot(inputs)}`;
      throw failed(returnedText(outputs, name, names), `${undeclaredReads(model, inputs)}${why}`);
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
