import { defineModel, refuse, type Model, type ModelFamily, type Quantity } from "../../engine/index.ts";
import { BATH_CAUTIONS } from "../safety/cautions.ts";
import { IEC_60751, ratioAt, temperatureFrom } from "./callendar-van-dusen.ts";
import { HIGHEST, LOWEST } from "./iec60751.ts";
import { flagAt, numbersAt, refuseUnknown } from "./parameters.ts";
import { Refit } from "./refit.ts";

/** Baths closer together than this are one temperature, °C. */
const APART = 0.5;

const shared = {
  referenceOffset: {
    symbol: "δt_cal",
    meaning: "correction of the reference, the same at every point",
    unit: "°C",
    difference: true,
  },
  referenceSpan: { symbol: "s_cal", meaning: "correction of the reference that grows with temperature", unit: "1" },
  bathCommon: {
    symbol: "δt_b",
    meaning: "temperature of the probe's place in the baths less that of the reference's, the same at every point",
    unit: "°C",
    difference: true,
  },
  bridgeZero: {
    symbol: "δR_z",
    meaning: "correction of the readout at calibration, the same at every point",
    unit: "Ω",
  },
  bridgeGain: {
    symbol: "g",
    meaning: "correction of the readout at calibration in proportion to resistance",
    unit: "1",
  },
  selfHeating: {
    symbol: "δt_sh",
    meaning: "warming of the probe by its current in the baths",
    unit: "°C",
    difference: true,
  },
  resistanceInUse: { symbol: "R", meaning: "resistance of the probe in use", unit: "Ω" },
  readoutInUse: { symbol: "δR", meaning: "correction of the readout in use", unit: "Ω" },
  driftInUse: { symbol: "d", meaning: "relative change of the probe's resistance since its calibration", unit: "1" },
  selfHeatingInUse: {
    symbol: "δt_sh,u",
    meaning: "warming of the probe by its current in use",
    unit: "°C",
    difference: true,
  },
} as const satisfies Record<string, Quantity>;

const optionalInputs = {
  lackOfFit: {
    symbol: "δt_lof",
    meaning: "departure of the probe from its fitted curve at the temperature in use, between and beyond its points",
    unit: "°C",
    difference: true,
  },
} as const satisfies Record<string, Quantity>;

/**
 * A probe calibrated at n baths: R₀, A, B (and C) fitted jointly, then a temperature in use. What is common to the
 * points (reference, bath, readout) is one input for all of them, so the correlation of the points, and through it
 * that of the coefficients, follows from the model itself.
 */
export const probeFit: ModelFamily = {
  id: "probe-fit",
  title: "Coefficients of a platinum probe from its calibration points, and the temperature in use",
  source:
    "Callendar–Van Dusen equation in the form of IEC 60751, clause 4, with the probe's own coefficients; least squares",
  parameters: {
    temperatures: "Nominal temperatures of the baths, °C: one point each, such as [-40, 4, 72, 134]",
    fitC: "Whether C is fitted too; by default if a bath lies below 0 °C. Otherwise C is that of IEC 60751",
    weights: "Optional: weight of each point in the fit, such as 1/u²; by default all alike",
  },
  example: { temperatures: [-40, 4, 72, 134] },
  build(parameters): Model {
    refuseUnknown(this, parameters);
    const { temperatures, fitC, weights } = readParameters(parameters);
    const n = temperatures.length;
    const refit = new Refit(n, fitC ? null : IEC_60751.C, weights);
    const names = temperatures.map((_, i) => ({
      reference: `reference${i + 1}`,
      resistance: `resistance${i + 1}`,
      bath: `bath${i + 1}`,
    }));
    const points = Object.fromEntries(
      temperatures.flatMap((t, i) => [
        [
          names[i]!.reference,
          { symbol: `t_${i + 1}`, meaning: `temperature by the reference in bath ${i + 1}, near ${t} °C`, unit: "°C" },
        ],
        [
          names[i]!.resistance,
          { symbol: `R_${i + 1}`, meaning: `resistance of the probe in bath ${i + 1}, near ${t} °C`, unit: "Ω" },
        ],
        [
          names[i]!.bath,
          {
            symbol: `δt_b${i + 1}`,
            meaning: `difference and change of temperature of bath ${i + 1} alone, and the probe's repeatability there`,
            unit: "°C",
            difference: true,
          },
        ],
      ]),
    );
    const temperatureAt = (x: Readonly<Record<string, number>>, i: number): number =>
      x[names[i]!.reference]! * (1 + x["referenceSpan"]!) +
      (x["referenceOffset"]! + x["bathCommon"]! + x["selfHeating"]!) +
      x[names[i]!.bath]!;
    const resistanceAt = (x: Readonly<Record<string, number>>, i: number): number =>
      (x[names[i]!.resistance]! + x["bridgeZero"]!) * (1 + x["bridgeGain"]!);
    return defineModel({
      id: "probe-fit",
      title: this.title,
      equation:
        `(R_0, A, B${fitC ? ", C" : ""}) by least squares of R_i′ = R_0[1 + At_i′ + Bt_i′² + C(t_i′ − 100 °C)t_i′³], i = 1…${n}, ` +
        "with R_i′ = (R_i + δR_z)·(1 + g) and t_i′ = t_i·(1 + s_cal) + δt_cal + δt_b + δt_bi + δt_sh; " +
        "t solves R_0·r(t + δt_sh,u − δt_lof) = (R + δR)/(1 + d)",
      source: this.source!,
      cautions: BATH_CAUTIONS,
      measurands: {
        R0: { symbol: "R_0", meaning: "resistance of the probe at 0 °C", unit: "Ω" },
        A: { symbol: "A", meaning: "coefficient A of the probe", unit: "1/°C" },
        B: { symbol: "B", meaning: "coefficient B of the probe", unit: "1/°C²" },
        ...(fitC ? { C: { symbol: "C", meaning: "coefficient C of the probe", unit: "1/°C⁴" } } : {}),
        t: { symbol: "t", meaning: "temperature in use", unit: "°C", difference: false },
      } as Record<"R0" | "A" | "B" | "t", Quantity>,
      calibrationCurve: {
        argument: {
          symbol: "t",
          meaning: "temperature of the probe",
          unit: "°C",
          from: Math.min(...temperatures),
          to: Math.max(...temperatures),
        },
        value: { symbol: "R", meaning: "resistance of the probe by its fitted coefficients", unit: "Ω" },
        evaluate: (y, t) => y.R0 * ratioAt({ A: y.A, B: y.B, C: (y as { readonly C?: number }).C ?? IEC_60751.C }, t),
        parameters: fitC ? 4 : 3,
        observed: (x) => names.map((_, i) => [temperatureAt(x, i), resistanceAt(x, i)]),
      },
      inputs: { ...points, ...shared } as typeof shared,
      optionalInputs,
      evaluate: (x) => {
        const given = x as Readonly<Record<string, number>>;
        const together = x.referenceOffset + x.bathCommon + x.selfHeating;
        for (let i = 0; i < n; i++) {
          const name = names[i]!;
          refit.temperatures[i] = given[name.reference]! * (1 + x.referenceSpan) + together + given[name.bath]!;
          refit.resistances[i] = (given[name.resistance]! + x.bridgeZero) * (1 + x.bridgeGain);
        }
        if (!refit.solve()) return { R0: Number.NaN, A: Number.NaN, B: Number.NaN, C: Number.NaN, t: Number.NaN };
        const q = refit.parameters;
        const R0 = q[0]!;
        const A = q[1]! / R0;
        const B = q[2]! / R0;
        const C = fitC ? q[3]! / R0 : IEC_60751.C;
        const R = (x.resistanceInUse + x.readoutInUse) / (1 + x.driftInUse);
        return {
          R0,
          A,
          B,
          C,
          t: temperatureFrom((R - R0) / R0, A, B, C) - x.selfHeatingInUse + (given["lackOfFit"] ?? 0),
        };
      },
    });
  },
};

function readParameters(parameters: Readonly<Record<string, unknown>>): {
  readonly temperatures: readonly number[];
  readonly fitC: boolean;
  readonly weights: readonly number[];
} {
  const temperatures = numbersAt("temperatures", parameters["temperatures"]);
  temperatures.forEach((t, i) => {
    if (!(t >= LOWEST && t <= HIGHEST)) {
      refuse(`parameters.temperatures.${i}`, t, `a temperature from ${LOWEST} °C to ${HIGHEST} °C`);
    }
  });
  const below = temperatures.some((t) => t < 0);
  const fitC = flagAt("fitC", parameters["fitC"], below);
  if (fitC && !below) refuse("parameters.fitC", true, "false if no bath lies below 0 °C: C has no effect there");
  const wanted = fitC ? ["R0", "A", "B", "C"] : ["R0", "A", "B"];
  const sorted = temperatures.toSorted((a, b) => a - b);
  const distinct = sorted.filter((t, i) => i === 0 || t - sorted[i - 1]! >= APART).length;
  if (distinct < wanted.length) {
    refuse(
      "parameters.temperatures",
      temperatures,
      `at least ${wanted.length} baths ${APART} °C or more apart for ${wanted.join(", ")}${fitC ? ", or fitC: false" : ""}`,
    );
  }
  const weights =
    parameters["weights"] === undefined ? temperatures.map(() => 1) : numbersAt("weights", parameters["weights"]);
  if (weights.length !== temperatures.length) {
    refuse("parameters.weights", weights.length, `${temperatures.length} weights, one a bath`);
  }
  weights.forEach((w, i) => {
    if (!(w > 0)) refuse(`parameters.weights.${i}`, w, "a number greater than 0");
  });
  return { temperatures, fitC, weights };
}
