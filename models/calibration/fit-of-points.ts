import { defineModel, InputError, show, type Model, type Problem, type Quantity } from "../../engine/index.ts";
import { partOf, programOf, provideProgram, type Numeric } from "../../engine/internal.ts";
import { IEC_60751, ratioAt } from "../platinum/callendar-van-dusen.ts";
import { temperatureOf } from "../platinum/iec60751.ts";
import { DeviationRefit, BEYOND, fittedNames, rangeInCelsius, resistanceOf } from "../platinum/its90/deviation-fit.ts";
import { branchOf } from "../platinum/its90/branch.ts";
import { subRangeOf, type SubRange } from "../platinum/its90/sub-ranges.ts";
import { Refit } from "../platinum/refit.ts";
import type { ComposedPoints } from "./composed-points.ts";
import type { Observation } from "./point-model.ts";
import { objectOf } from "./written-out.ts";

type Values = Readonly<Record<string, number>>;

const input = (name: string): Numeric => ({ op: "input", name, otherwise: null });

/** Error of a fitted curve at t, °C: the temperature that IEC 60751 gives for its resistance there, less t. */
const errorOfCurve = (R0: number, A: number, B: number, C: number, nominalResistance: number, t: number): number =>
  temperatureOf((R0 * ratioAt({ A, B, C }, t)) / nominalResistance) - t;

/** What a fit determines, as measurands. */
type CoefficientName = "R0" | "A" | "B" | "C";

/** The fit of a thermometer's own coefficients in every trial. */
export interface FitOfPoints {
  readonly coefficients: readonly string[];
  /** What is fitted, in symbols. */
  readonly equation: string;
  readonly measurands: Readonly<Record<string, Quantity>>;
  /** Error of the fitted curve at t, °C: temperature that its resistance shows by the scale that errors refer to, less t. */
  curve(y: Values, t: number): number;
  /** The model's function: errors under `names`, then the coefficients. */
  evaluator(names: readonly string[]): (x: Values) => Record<string, number>;
}

const QUANTITY: Quantity = { symbol: "1", meaning: "of the fitted curve", unit: "1" };

/** A fitted curve as a model, of which the build keeps a program. */
export const fittedCurve = defineModel({
  id: "calibration-points-curve",
  title: "Error of a fitted curve at a temperature",
  measurands: { value: QUANTITY },
  inputs: { R0: QUANTITY, A: QUANTITY, B: QUANTITY, C: QUANTITY, nominalResistance: QUANTITY, argument: QUANTITY },
  safety: () => ({ warnings: [], cautions: [] }),
  evaluate: (x) => errorOfCurve(x.R0, x.A, x.B, x.C, x.nominalResistance, x.argument),
}) as Model;

/** Points closer together than this are one temperature, °C. */
const APART = 0.5;

const QUANTITIES: Readonly<Record<CoefficientName, Quantity>> = {
  R0: { symbol: "R_0", meaning: "resistance of the probe at 0 °C", unit: "Ω" },
  A: { symbol: "A", meaning: "coefficient A of the probe", unit: "1/°C" },
  B: { symbol: "B", meaning: "coefficient B of the probe", unit: "1/°C²" },
  C: { symbol: "C", meaning: "coefficient C of the probe", unit: "1/°C⁴" },
};

/**
 * @param factor L of the points' joint covariance, or `null` if all points count alike
 * @returns `null` if the study asks for no fit
 * @throws {InputError} points that do not determine the coefficients
 */
export function openFit(composed: ComposedPoints, factor: readonly (readonly number[])[] | null): FitOfPoints | null {
  const { fit, points } = composed.parameters;
  if (fit === null) return null;
  if (fit.subRange !== undefined) {
    const subRange = subRangeOf(fit.subRange);
    const problems = undeterminedDeviation(
      points.map(({ nominal }) => nominal),
      subRange,
    );
    if (problems.length > 0)
      throw new InputError(problems.map((each) => ({ ...each, place: `parameters.${each.place}` })));
    return openDeviationFit(composed, subRange, factor);
  }
  const coefficients: readonly CoefficientName[] = fit.fitC ? ["R0", "A", "B", "C"] : ["R0", "A", "B"];
  const problem = undetermined(
    points.map(({ nominal }) => nominal),
    fit.fitC,
  );
  if (problem !== null) throw new InputError([{ ...problem, place: `parameters.${problem.place}` }]);
  const { nominalResistance, fitC } = fit;
  const curve = (y: Values, t: number): number =>
    errorOfCurve(y["R0"]!, y["A"]!, y["B"]!, y["C"] ?? IEC_60751.C, nominalResistance, t);
  provideProgram(curve, () => {
    const known = { C: IEC_60751.C, nominalResistance };
    const given = (name: string): Numeric =>
      name === "C" && fitC ? input(name) : name in known ? { op: "number", value: known[name as "C"] } : input(name);
    const program = programOf(fittedCurve.evaluate)?.program() ?? null;
    return program === null ? null : { ...program, ...partOf(program, { locals: 0, blocks: 0, input: given }) };
  });
  return {
    coefficients,
    measurands: Object.fromEntries(coefficients.map((name) => [name, QUANTITIES[name]])),
    equation: `(${coefficients.map((name) => (name === "R0" ? "R_0" : name)).join(", ")}) by least squares of R_i = R_0[1 + At_i + Bt_i² + C(t_i − 100 °C)t_i³]`,
    curve,
    evaluator: (names) =>
      refitting(
        composed,
        names,
        coefficients,
        new Refit(
          points.length,
          fitC ? null : IEC_60751.C,
          points.map(() => 1),
          factor,
        ),
        (value, R0) => value / R0,
      ),
  };
}

/** A fit once a trial: `Refit` or `DeviationRefit`. */
interface TrialFit {
  readonly temperatures: Float64Array;
  readonly resistances: Float64Array;
  readonly parameters: Float64Array;
  solve(): boolean;
}

/**
 * The model's function: errors, and the coefficients of a fit.
 *
 * @param coefficient what a parameter of the fit and its first one, a resistance, make a coefficient
 */
function refitting(
  { observe, parameters: { points, fit }, point: { shownRatio } }: ComposedPoints,
  names: readonly string[],
  coefficients: readonly string[],
  refit: TrialFit,
  coefficient: (parameter: number, resistance: number) => number,
): (x: Values) => Record<string, number> {
  const n = points.length;
  const { nominalResistance } = fit!;
  const point: Observation = { error: 0, temperature: 0 };
  const values = new Float64Array(n + coefficients.length);
  const object = objectOf([...names, ...coefficients]);
  return (x) => {
    for (let i = 0; i < n; i++) {
      observe(x, i, point);
      values[i] = point.error;
      refit.temperatures[i] = point.temperature;
      refit.resistances[i] = nominalResistance * shownRatio(point.temperature + point.error);
    }
    const solved = refit.solve();
    const q = refit.parameters;
    const R0 = solved ? q[0]! : Number.NaN;
    values[n] = R0;
    for (let k = 1; k < coefficients.length; k++) values[n + k] = coefficient(q[k]!, R0);
    return object(values);
  };
}

/** The fit of a standard thermometer: R(0.01 °C) and the deviation function of a sub-range of ITS-90. */
function openDeviationFit(
  composed: ComposedPoints,
  subRange: SubRange,
  factor: readonly (readonly number[])[] | null,
): FitOfPoints {
  const { points, fit } = composed.parameters;
  const coefficients = fittedNames(subRange);
  const { nominalResistance } = fit!;
  const { temperature } = branchOf(subRange);
  return {
    coefficients,
    measurands: Object.fromEntries(
      coefficients.map((name, k): [string, Quantity] => [
        name,
        k === 0
          ? {
              symbol: "R_tp",
              meaning: "resistance of the thermometer at the triple point of water, 0.01 °C",
              unit: "Ω",
            }
          : {
              symbol: name.length === 1 ? name : `${name[0]!}_${name.slice(1)}`,
              meaning: `coefficient ${name} of the thermometer in sub-range ${subRange.number} of ITS-90`,
              unit: "1",
            },
      ]),
    ),
    equation: `(${coefficients.map((name) => (name === "Rtp" ? "R_tp" : name)).join(", ")}) by least squares of W_i − W_r(t_i) = ${subRange.equation}, W_i = R_i/R_tp`,
    curve(y, t) {
      const parameters = coefficients.map((name) => y[name]!);
      return temperature(resistanceOf(subRange, parameters, t) / nominalResistance) - 273.15 - t;
    },
    evaluator: (names) =>
      refitting(composed, names, coefficients, new DeviationRefit(points.length, subRange, factor), (value, R0) =>
        Number.isNaN(R0) ? R0 : value,
      ),
  };
}

/** Why points at these nominal temperatures do not determine a deviation function; none if they do. */
export function undeterminedDeviation(nominal: readonly number[], subRange: SubRange): readonly Problem[] {
  const [low, high] = rangeInCelsius(subRange);
  const outside = nominal.flatMap((t, i): Problem[] =>
    t >= low - BEYOND && t <= high + BEYOND
      ? []
      : [
          {
            place: `points.${i}.nominal`,
            value: show(t),
            accepted: `a temperature from ${Number(low.toFixed(4))} °C to ${Number(high.toFixed(4))} °C, sub-range ${subRange.number} of ITS-90`,
          },
        ],
  );
  const names = fittedNames(subRange);
  if (temperaturesApart(nominal) >= names.length) return outside;
  return [
    ...outside,
    {
      place: "points",
      value: show(nominal.toSorted((a, b) => a - b)),
      accepted: `points at ${names.length} temperatures or more, ${APART} °C apart, for ${names.join(", ")} of sub-range ${subRange.number}, or another sub-range`,
    },
  ];
}

/** How many temperatures there are that lie apart. */
function temperaturesApart(nominal: readonly number[]): number {
  const sorted = nominal.toSorted((a, b) => a - b);
  return sorted.filter((t, i) => i === 0 || t - sorted[i - 1]! >= APART).length;
}

/** Why points at these nominal temperatures do not determine the coefficients; `null` if they do. */
export function undetermined(nominal: readonly number[], fitC: boolean): Problem | null {
  const names = fitC ? ["R0", "A", "B", "C"] : ["R0", "A", "B"];
  const sorted = nominal.toSorted((a, b) => a - b);
  if (fitC && sorted[0]! >= 0)
    return {
      place: "points",
      value: "none below 0 °C",
      accepted: "a point below 0 °C, or no C of its own: it has no effect above",
    };
  if (temperaturesApart(nominal) >= names.length) return null;
  return {
    place: "points",
    value: show(sorted),
    accepted: `points at ${names.length} temperatures or more, ${APART} °C apart, for ${names.join(", ")}, or no fit`,
  };
}

/** Temperature and error at every point, °C, and the resistance they mean, Ω, for given inputs. */
export function observed(
  composed: ComposedPoints,
  x: Values,
): readonly { readonly temperature: number; readonly error: number; readonly resistance: number }[] {
  const { fit, points } = composed.parameters;
  const point: Observation = { error: 0, temperature: 0 };
  return points.map((_, i) => {
    composed.observe(x, i, point);
    const { temperature, error } = point;
    return {
      temperature,
      error,
      resistance: (fit?.nominalResistance ?? 1) * composed.point.shownRatio(temperature + error),
    };
  });
}
