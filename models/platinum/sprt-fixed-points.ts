import { defineModel, refuse, type Model, type ModelFamily, type Quantity } from "../../engine/index.ts";
import { FIXED_POINT_CAUTIONS } from "./cautions.ts";
import { takesPressure, temperatureAtSensor } from "./chain/hydrostatic-head.ts";
import { atZeroCurrent } from "./chain/self-heating.ts";
import { driftedTriplePoint } from "./chain/triple-point-drift.ts";
import { scaleInputs, type ScaleInputs } from "./its90/scale-inputs.ts";
import { coefficientSolver } from "./its90/deviation-coefficients.ts";
import { fixedPoints, STANDARD_PRESSURE, type FixedPoint } from "./its90/fixed-points.ts";
import { referenceRatio, referenceSlope, TRIPLE_POINT } from "./its90/reference-function.ts";
import { coefficientNames, subRangeOf } from "./its90/sub-ranges.ts";
import { temperatureFromRatio } from "./its90/thermometer.ts";
import { refuseUnknown } from "./parameters.ts";

const common = {
  ratioInUse: { symbol: "ρ", meaning: "bridge ratio of the thermometer in use, at zero current", unit: "1" },
  bridgeInUse: { symbol: "δρ", meaning: "correction of the bridge at the ratio in use", unit: "1" },
  triplePointDrift: {
    symbol: "d_tp",
    meaning: "relative change of R(273.16 K) from its last measurement to use",
    unit: "1",
  },
  selfHeatingInUse: { symbol: "δt_sh", meaning: "warming left after extrapolation to zero current in use", unit: "K" },
} as const satisfies Record<string, Quantity>;

const TRIPLE_IN_USE: Quantity = {
  symbol: "ρ_tp,u",
  meaning: "bridge ratio at the triple point of water measured in use, zero current, 273.16 K",
  unit: "1",
};

/** dW/dT at the triple point of water, 1/K: that of the reference function, within 1e-3 for any accepted thermometer. */
const TRIPLE_SLOPE = referenceSlope(TRIPLE_POINT);

/**
 * Calibration of a standard platinum resistance thermometer at the fixed points of one sub-range, then t₉₀ in use.
 * Ratios to one standard resistor are measured at two currents and taken to zero; cells have their hydrostatic head,
 * pressure and impurities. R(273.16 K) is one quantity under every ratio, so its correlation is in the model itself.
 */
export const sprtFixedPoints: ModelFamily = {
  id: "sprt-fixed-points",
  title: "Standard platinum resistance thermometer calibrated at fixed points, and the temperature in use",
  source:
    "ITS-90 (Metrologia 27 (1990) 3–10), 3.3 and tables 1, 2, 4, 5; extrapolation to zero current is common practice",
  parameters: {
    subRange: `The sub-range of ITS-90, "1" to "11" by their customary numbers: "8" is 0 °C to 419.527 °C, "5" −38.8344 °C to 29.7646 °C`,
    triplePoint: `"common" (by default): the ratio in use stands on the R(273.16 K) of the calibration; "remeasured": on one measured anew, input ratioInUse_H2O`,
    squaredCurrentRatio: "(I₂/I₁)² of the two currents at the fixed points; 2 by default",
  },
  example: { subRange: "8" },
  build(parameters): Model {
    refuseUnknown(this, parameters);
    const subRange = subRangeOf(parameters["subRange"], "parameters.subRange");
    const remeasured = triplePointOf(parameters["triplePoint"]);
    const squares = squaresOf(parameters["squaredCurrentRatio"]);
    const points = subRange.points.map((name) => fixedPoints[name]);
    const n = points.length;
    const solve = coefficientSolver(subRange);
    const names = coefficientNames(subRange);
    const [W, Wr, coefficients] = [new Float64Array(n), new Float64Array(n), new Float64Array(names.length)];
    const fields = points.map(fieldsOf);
    const water = fieldsOf(fixedPoints.H2O);
    // W(Al), which sub-range 6 keeps beside its coefficients, is no coefficient.
    const reported = names.filter((name) => name !== "ratioAtAl");
    const nothing = Object.fromEntries([...reported, "t"].map((name) => [name, Number.NaN])) as { t: number };
    return defineModel({
      id: "sprt-fixed-points",
      title: this.title,
      equation:
        "W_i = ρ_i(0)·(1 + d_i)/ρ_tp, ρ(0) = ρ_1 + δρ − (ρ_2 − ρ_1)/[(I_2/I_1)² − 1], T_i = T_i90 + (dT/dl)·l_i + (dT/dp)·(p_i − 101 325 Pa) + δT_i; " +
        `W_i − W_r(T_i) = ${subRange.equation} gives the coefficients; t = W_r⁻¹(W − [W − W_r]) − 273.15 − δt_sh + δt_nu + δt_sr, ` +
        (remeasured ? "W = (ρ + δρ)/[ρ_tp,u·(1 + d_tp)]" : "W = (ρ + δρ)/[ρ_tp·(1 + d_tp)]"),
      source: this.source!,
      cautions: FIXED_POINT_CAUTIONS,
      measurands: {
        ...Object.fromEntries(
          reported.map((name) => [
            name,
            { symbol: name, meaning: `coefficient ${name} of the deviation function`, unit: "1" },
          ]),
        ),
        t: { symbol: "t", meaning: "temperature in use, t₉₀", unit: "°C", difference: false },
      } as { t: Quantity },
      inputs: {
        ...Object.fromEntries([fixedPoints.H2O, ...points].flatMap(inputsOf)),
        ...(remeasured ? { ratioInUse_H2O: TRIPLE_IN_USE } : {}),
        ...common,
      } as typeof common,
      optionalInputs: scaleInputs,
      evaluate: (x) => {
        const given = x as Readonly<Record<string, number>>;
        const o = x as typeof x & ScaleInputs;
        const departure = sensorTemperature(given, fixedPoints.H2O, water) - TRIPLE_POINT;
        const triple = zeroCurrentRatio(given, water, squares) / (1 + TRIPLE_SLOPE * departure);
        for (let i = 0; i < n; i++) {
          const field = fields[i]!;
          W[i] = (zeroCurrentRatio(given, field, squares) * (1 + given[field.resistor]!)) / triple;
          Wr[i] = referenceRatio(sensorTemperature(given, points[i]!, field));
        }
        if (!solve(W, Wr, coefficients)) return nothing;
        const under = driftedTriplePoint(remeasured ? given["ratioInUse_H2O"]! : triple, x.triplePointDrift);
        const T = temperatureFromRatio(subRange, coefficients, (x.ratioInUse + x.bridgeInUse) / under);
        const out: Record<string, number> & { t: number } = {
          t: T - 273.15 - x.selfHeatingInUse + ((o.nonUniqueness ?? 0) + (o.subRangeInconsistency ?? 0)),
        };
        for (let k = 0; k < reported.length; k++) out[reported[k]!] = coefficients[k]!;
        return out;
      },
    });
  },
};

interface Fields {
  readonly first: string;
  readonly second: string;
  readonly bridge: string;
  readonly resistor: string;
  readonly depth: string;
  readonly pressure: string;
  readonly impurity: string;
  readonly realised: string;
}

const fieldsOf = ({ name }: FixedPoint): Fields => ({
  first: `ratio1_${name}`,
  second: `ratio2_${name}`,
  bridge: `bridge_${name}`,
  resistor: `resistor_${name}`,
  depth: `depth_${name}`,
  pressure: `pressure_${name}`,
  impurity: `impurity_${name}`,
  realised: `realised_${name}`,
});

function inputsOf(point: FixedPoint): (readonly [string, Quantity])[] {
  const field = fieldsOf(point);
  const { name, title, state } = point;
  const at = name === "H2O" ? "tp" : name;
  const quantity = (key: string, symbol: string, meaning: string, unit: string): readonly [string, Quantity] => [
    key,
    { symbol, meaning: `${meaning}, ${title}`, unit },
  ];
  return [
    quantity(field.first, `ρ_1,${at}`, "bridge ratio at the first current", "1"),
    quantity(field.second, `ρ_2,${at}`, "bridge ratio at the second current", "1"),
    quantity(field.bridge, `δρ_${at}`, "correction of the bridge", "1"),
    // Relative to the triple point of water, so it needs none of its own.
    ...(name === "H2O"
      ? []
      : [
          quantity(
            field.resistor,
            `d_${at}`,
            "relative change of the standard resistor since the triple point of water was measured",
            "1",
          ),
        ]),
    ...(state === "vapour"
      ? [quantity(field.realised, `T_${at}`, "realised temperature T₉₀", "K")]
      : [quantity(field.depth, `l_${at}`, "depth of the middle of the sensor below the surface", "m")]),
    ...(takesPressure(point) ? [quantity(field.pressure, `p_${at}`, "pressure over the surface", "Pa")] : []),
    quantity(
      field.impurity,
      `δT_${at}`,
      "departure of the cell from the fixed point: impurities, isotopes, plateau, heat flux",
      "K",
    ),
  ];
}

const zeroCurrentRatio = (given: Readonly<Record<string, number>>, field: Fields, squares: number): number =>
  atZeroCurrent(given[field.first]!, given[field.second]!, squares) + given[field.bridge]!;

function sensorTemperature(given: Readonly<Record<string, number>>, point: FixedPoint, field: Fields): number {
  if (point.state === "vapour") return given[field.realised]! + given[field.impurity]!;
  const pressure = takesPressure(point) ? given[field.pressure]! : STANDARD_PRESSURE;
  return temperatureAtSensor(point, given[field.depth]!, pressure) + given[field.impurity]!;
}

function triplePointOf(value: unknown): boolean {
  if (value !== undefined && value !== "common" && value !== "remeasured") {
    return refuse("parameters.triplePoint", value, `"common" or "remeasured"`);
  }
  return value === "remeasured";
}

function squaresOf(value: unknown): number {
  if (value === undefined) return 2;
  if (typeof value !== "number" || !(value > 0) || !Number.isFinite(value) || value === 1) {
    return refuse("parameters.squaredCurrentRatio", value, "a number greater than 0, not 1");
  }
  return value;
}
