import { defineModel, refuse, type Model, type Outputs } from "../../engine/index.ts";
import {
  bathComparison,
  bathTemperatureAtProbe,
  comparisonError,
  errorShowing,
  probeRatio,
} from "../bath/comparison.ts";
import { resistanceRatio } from "../platinum/iec60751.ts";
import { branchOf, type Branch } from "../platinum/its90/branch.ts";
import type { SubRange } from "../platinum/its90/sub-ranges.ts";
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
  /** R/R_0 of the scale that errors refer to, at t in °C: IEC 60751, or the reference function of ITS-90. */
  shownRatio(t: number): number;
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

/**
 * @param subRange of ITS-90 of an instrument that shows temperatures by the reference function; without it by IEC 60751
 * @throws {InputError} a model that cannot be taken, or its parameters
 */
export function pointModelOf(
  id: unknown,
  parameters: Readonly<Record<string, unknown>>,
  subRange: SubRange | null = null,
): PointModel {
  if (id === "bath-comparison") {
    if (Object.keys(parameters).length > 0)
      refuse("parameters.pointParameters", parameters, "nothing: bath-comparison has no parameters");
    if (subRange !== null) return standardComparison(branchOf(subRange));
    const { evaluate } = bathComparison as unknown as { readonly evaluate: (x: Values) => number };
    return {
      model: bathComparison,
      observation: comparisonObservation,
      error: evaluate,
      observe(x, out) {
        out.error = evaluate(x);
        out.temperature = bathTemperatureAtProbe(x);
      },
      shownRatio: resistanceRatio,
    };
  }
  if (id === "sprt-bath") {
    const branch = subRange === null ? null : branchOf(subRange);
    const model =
      branch === null
        ? sprtBath.build(parameters)
        : byReferenceFunction(sprtBath.build(parameters, (ratio) => branch.temperature(ratio) - ZERO_CELSIUS));
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
      shownRatio: branch === null ? resistanceRatio : (t) => branch.ratio(t + ZERO_CELSIUS),
    };
  }
  return refuse("parameters.pointModel", id, `one of ${POINT_MODELS.join(", ")}`);
}

/** A comparison whose instrument is a standard thermometer: it shows the temperature of the reference function of ITS-90. */
function standardComparison({ ratio, temperature }: Branch): PointModel {
  const error = (x: Values): number => {
    const given = x as Parameters<typeof comparisonError>[0];
    return errorShowing(temperature(probeRatio(given)) - ZERO_CELSIUS, given);
  };
  return {
    model: byReferenceFunction(bathComparison as unknown as Model),
    observation: null,
    error,
    observe(x, out) {
      out.error = error(x);
      out.temperature = bathTemperatureAtProbe(x);
    },
    shownRatio: (t) => ratio(t + ZERO_CELSIUS),
  };
}

/** A model of one point whose instrument shows temperatures by the reference function of ITS-90. */
const byReferenceFunction = (model: Model): Model => ({
  ...model,
  equation: model.equation!.replace("e = t(", "e = t₉₀(").concat(", t₉₀ by W_r⁻¹(R/R_0)"),
  source: "common practice in comparison calibration; t₉₀(R) by the reference function of ITS-90",
});

const ZERO_CELSIUS = 273.15;
