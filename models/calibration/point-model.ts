import { defineModel, refuse, type Model, type Outputs } from "../../engine/index.ts";
import { bathComparison, bathTemperatureAtProbe, comparisonError } from "../bath/comparison.ts";
import { resistanceRatio } from "../platinum/iec60751.ts";
import { sprtBath } from "../bath/reference-sprt.ts";

type Values = Readonly<Record<string, number>>;

/** A model of one point of a calibration: one instrument against the reference, in one bath, at one temperature. */
export interface PointModel {
  readonly model: Model;
  /** What it observes as a model of its own, of which the build keeps a program; `null` if there is none. */
  readonly observation: Model | null;
  /** Error of the instrument, °C. */
  error(x: Values): number;
  /** Error, and temperature of the bath at the instrument, °C. */
  observe(x: Values, out: Observation): void;
}

/** What one trial finds at one point; written over, so that a million trials make no objects. */
export interface Observation {
  error: number;
  temperature: number;
}

/** Ids of the models that a calibration may take for its points. */
export const POINT_MODELS = ["bath-comparison", "sprt-bath"] as const;

/** What a comparison in a bath observes in a trial; R(t)/R_0 is what the probe's indication means by IEC 60751. */
export const comparisonObservation = defineModel({
  id: "bath-comparison-observation",
  title: "Error, temperature and resistance ratio of a comparison in a bath",
  measurands: {
    error: bathComparison.measurands.error,
    temperature: { symbol: "t", meaning: "temperature of the bath at the probe", unit: "°C" },
    ratio: { symbol: "r", meaning: "resistance ratio of IEC 60751 at the temperature that the probe shows", unit: "1" },
  },
  inputs: bathComparison.inputs,
  optionalInputs: bathComparison.optionalInputs!,
  safety: bathComparison.safety!,
  evaluate: (x) => {
    const error = comparisonError(x);
    const temperature = bathTemperatureAtProbe(x);
    return { error, temperature, ratio: resistanceRatio(temperature + error) };
  },
}) as Model;

/** @throws {InputError} a model that cannot be taken, or its parameters */
export function pointModelOf(id: unknown, parameters: Readonly<Record<string, unknown>>): PointModel {
  if (id === "bath-comparison") {
    if (Object.keys(parameters).length > 0)
      refuse("parameters.pointParameters", parameters, "nothing: bath-comparison has no parameters");
    const { evaluate } = bathComparison as unknown as { readonly evaluate: (x: Values) => number };
    return {
      model: bathComparison,
      observation: comparisonObservation,
      error: evaluate,
      observe(x, out) {
        out.error = evaluate(x);
        out.temperature = bathTemperatureAtProbe(x);
      },
    };
  }
  if (id === "sprt-bath") {
    const model = sprtBath.build(parameters);
    const { evaluate } = model as unknown as {
      readonly evaluate: (x: Values) => Readonly<Record<"error" | "bathTemperature", number>>;
    };
    const differences = ["bathAxial", "bathRadial", "bathStability", "bathLoading"] as const;
    return {
      model,
      observation: null,
      error: (x) => evaluate(x).error,
      observe(x, out) {
        const found: Outputs<"error" | "bathTemperature"> & { error: number; bathTemperature: number } = evaluate(x);
        out.error = found.error;
        out.temperature = found.bathTemperature;
        for (const name of differences) out.temperature += x[name] ?? 0;
      },
    };
  }
  return refuse("parameters.pointModel", id, `one of ${POINT_MODELS.join(", ")}`);
}
