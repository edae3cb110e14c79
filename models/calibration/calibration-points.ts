import { defineModel, refuse, type Model, type ModelFamily, type Quantity, type Safety } from "../../engine/index.ts";
import { provideProgram } from "../../engine/internal.ts";
import { classTolerance } from "../platinum/class-tolerance.ts";
import { choleskyFactorOf } from "../platinum/least-squares.ts";
import { refuseUnknown } from "../platinum/parameters.ts";
import { BATH_CAUTIONS, judgeBath } from "../safety/cautions.ts";
import { composePoints, type ComposedPoints } from "./composed-points.ts";
import { fittedCurve, observed, openFit, type FitOfPoints } from "./fit-of-points.ts";
import { comparisonObservation } from "./point-model.ts";
import { programOfPoints } from "./points-program.ts";
import { objectOf } from "./written-out.ts";

/** Name of the measurand that is the error at a point. */
export const errorName = (point: string): string => `error_${point}`;

/**
 * The errors of one thermometer at all points of its calibration, and its fitted coefficients. Each point has the model
 * of a single comparison; what points share (certificate, drift and readout of the reference, the instrument's readout,
 * a standard resistor) is one input for all of them, so the correlation of the errors, and through it that of the
 * coefficients, follows from the trials themselves.
 */
export const calibrationPoints: ModelFamily = {
  id: "calibration-points",
  title: "Calibration of a thermometer at several points that share inputs",
  source:
    "common practice in comparison calibration; joint measurands by JCGM 102; curve in the form of IEC 60751, clause 4, or of ITS-90, by least squares",
  parameters: {
    instrument: "Designation of the instrument",
    pointModel: `Model of one point: "bath-comparison" (by default) or "sprt-bath"`,
    pointParameters: "Parameters of that model",
    points:
      "One entry a point: name, nominal temperature in °C, which input of the study is which of the point's model",
    fit: "Optional: R_0 that errors refer to, whether C is fitted or the sub-range of ITS-90, joint covariance of the points for their weights",
  },
  parts: [comparisonObservation, fittedCurve],
  build(parameters): Model {
    refuseUnknown(this, parameters);
    const composed = composePoints(parameters);
    const { points } = composed.parameters;
    const factor = factorOf(composed);
    const fit = openFit(composed, factor);
    const names = points.map(({ name }) => errorName(name));
    const errors = Object.fromEntries(
      points.map(({ nominal }, i): [string, Quantity] => [
        names[i]!,
        {
          symbol: `e_${i + 1}`,
          meaning: `error of the thermometer, point ${i + 1} at ${nominal} °C`,
          unit: "°C",
          difference: true,
        },
      ]),
    );
    const evaluate = fit?.evaluator(names) ?? errorsOf(composed, names);
    provideProgram(evaluate, () => programOfPoints(composed, names, fit?.coefficients ?? [], factor), "ofManyPoints");
    return defineModel({
      id: "calibration-points",
      title: this.title,
      equation: equationOf(composed, fit),
      source: this.source!,
      cautions: BATH_CAUTIONS,
      safety: judgeBaths,
      toleranceSpecifications: { iec60751: classTolerance },
      measurands: { ...errors, ...fit?.measurands } as Record<string, Quantity>,
      inputs: composed.inputs,
      optionalInputs: composed.optionalInputs,
      ...(fit === null || curveRange(composed) === null
        ? {}
        : {
            calibrationCurve: {
              argument: {
                symbol: "t",
                meaning: "temperature of the thermometer",
                unit: "°C",
                ...curveRange(composed)!,
              },
              value: {
                symbol: "e",
                meaning: "error of the thermometer by its fitted coefficients",
                unit: "°C",
                difference: true,
              },
              evaluate: fit.curve,
              parameters: fit.coefficients.length,
              observed: (x: Readonly<Record<string, number>>) =>
                observed(composed, x).map(({ temperature, error }) => [temperature, error] as const),
            },
          }),
      evaluate,
    });
  },
};

/** The model's function where nothing is fitted. */
function errorsOf(
  composed: ComposedPoints,
  names: readonly string[],
): (x: Readonly<Record<string, number>>) => Record<string, number> {
  const values = new Float64Array(names.length);
  const object = objectOf(names);
  return (x) => {
    for (let i = 0; i < values.length; i++) values[i] = composed.error(x, i);
    return object(values);
  };
}

function factorOf({ parameters: { fit, points } }: ComposedPoints): readonly (readonly number[])[] | null {
  if (fit?.covariance === undefined) return null;
  const n = points.length;
  if (fit.covariance.length !== n || fit.covariance.some((row) => row.length !== n))
    refuse("parameters.fit.covariance", `${fit.covariance.length} rows`, `a ${n} × ${n} matrix, a row for each point`);
  return choleskyFactorOf(fit.covariance, "parameters.fit.covariance");
}

function curveRange({ parameters: { points } }: ComposedPoints): { readonly from: number; readonly to: number } | null {
  const temperatures = points.map(({ nominal }) => nominal);
  const [from, to] = [Math.min(...temperatures), Math.max(...temperatures)];
  return from < to ? { from, to } : null;
}

function equationOf({ point, parameters }: ComposedPoints, fit: FitOfPoints | null): string {
  const n = parameters.points.length;
  const one = `${point.model.equation ?? point.model.title}, i = 1…${n}`;
  if (fit === null) return one;
  return `${one}; ${fit.equation}, i = 1…${n}`;
}

/**
 * What a study states of each bath by its name, judged one by one.
 *
 * @throws {InputError} fields that cannot be used, at `bath.<name>.…`
 */
function judgeBaths(baths: Readonly<Record<string, unknown>>): Safety {
  const judged = Object.entries(baths).map(([name, stated]) => ({
    name,
    ...judgeBath(stated as Record<string, unknown>, `bath.${name}`),
  }));
  return {
    warnings: judged.flatMap(({ name, warnings }) => warnings.map((warning) => `Bath ${name}: ${warning}`)),
    cautions: [...new Set(judged.flatMap(({ cautions }) => cautions))],
  };
}
