import { refuse, type Model, type Outputs } from "../../engine/index.ts";
import { bathComparison, bathTemperatureAtProbe } from "../bath/comparison.ts";
import { sprtBath } from "../bath/reference-sprt.ts";

type Values = Readonly<Record<string, number>>;

/** A model of one point of a calibration: one instrument against the reference, in one bath, at one temperature. */
export interface PointModel {
  readonly model: Model;
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

/** @throws {InputError} a model that cannot be taken, or its parameters */
export function pointModelOf(id: unknown, parameters: Readonly<Record<string, unknown>>): PointModel {
  if (id === "bath-comparison") {
    if (Object.keys(parameters).length > 0)
      refuse("parameters.pointParameters", parameters, "nothing: bath-comparison has no parameters");
    const { evaluate } = bathComparison as unknown as { readonly evaluate: (x: Values) => number };
    return {
      model: bathComparison,
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
