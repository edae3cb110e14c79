import { classTolerance } from "../platinum/class-tolerance.ts";
import { defineModel, refuse, type Model, type ModelFamily, type Quantity } from "../../engine/index.ts";
import { bridgeResistance } from "../platinum/chain/bridge.ts";
import { standardResistance } from "../platinum/chain/standard-resistor.ts";
import { driftedTriplePoint } from "../platinum/chain/triple-point-drift.ts";
import { temperatureOf } from "../platinum/iec60751.ts";
import { scaleInputs } from "../platinum/its90/scale-inputs.ts";
import { coefficientNames, subRangeOf } from "../platinum/its90/sub-ranges.ts";
import { temperatureFromRatio } from "../platinum/its90/thermometer.ts";
import { refuseUnknown } from "../platinum/parameters.ts";
import { optionalInputs as usual } from "./comparison.ts";
import { BATH_CAUTIONS, judgeBath } from "../safety/cautions.ts";
import { bathQuantities } from "./bath-quantities.ts";
import { probeQuantities } from "./probe-quantities.ts";

/** The triple point of water by a resistance from elsewhere, or by a ratio to the standard resistor that is used now. */
const triplePoints = {
  resistance: {
    triplePointResistance: {
      symbol: "R_tp",
      meaning: "resistance of the reference at the triple point of water",
      unit: "Ω",
    },
  },
  ratio: {
    triplePointRatio: {
      symbol: "ρ_tp",
      meaning: "bridge ratio of the reference to the same standard resistor at the triple point of water",
      unit: "1",
    },
  },
} as const satisfies Record<string, Record<string, Quantity>>;

const { referenceImmersion, referenceHysteresis, referenceLag, probeLag, bathLoading } = usual;
const optionalInputs = { ...scaleInputs, referenceImmersion, referenceHysteresis, referenceLag, probeLag, bathLoading };

type Optional = Readonly<Partial<Record<keyof typeof optionalInputs, number>>>;

const before = {
  referenceRatio: {
    symbol: "ρ_S",
    meaning: "bridge ratio of the reference to the standard resistor, mean of the indications",
    unit: "1",
  },
  referenceBridge: { symbol: "δρ_S", meaning: "correction of the bridge at the reference's ratio", unit: "1" },
  probeRatio: {
    symbol: "ρ_X",
    meaning: "bridge ratio of the probe to the standard resistor, mean of the indications",
    unit: "1",
  },
  probeBridge: { symbol: "δρ_X", meaning: "correction of the bridge at the probe's ratio", unit: "1" },
  standardResistance: {
    symbol: "R_s",
    meaning: "standard resistor at its reference temperature, from its certificate",
    unit: "Ω",
  },
  resistorAlpha: { symbol: "α_s", meaning: "temperature coefficient of the standard resistor", unit: "1/°C" },
  resistorTemperature: {
    symbol: "Δt_s",
    meaning: "temperature of the standard resistor less its reference temperature",
    unit: "°C",
    difference: true,
  },
  resistorDrift: {
    symbol: "d_s",
    meaning: "relative change of the standard resistor since its calibration",
    unit: "1",
  },
} as const satisfies Record<string, Quantity>;

const after = {
  triplePointDrift: {
    symbol: "d_tp",
    meaning: "relative change of the reference at the triple point of water since it was measured there",
    unit: "1",
  },
  referenceCalibration: {
    symbol: "δt_cal",
    meaning: "correction of the reference from the fixed points, as its certificate states it at this temperature",
    unit: "°C",
    difference: true,
  },
  referenceSelfHeating: {
    symbol: "δt_sh,S",
    meaning: "warming of the reference by its current beyond that of its calibration",
    unit: "°C",
    difference: true,
  },
  nominalResistance: { symbol: "R_0", meaning: "nominal resistance of the probe at 0 °C", unit: "Ω" },
  ...probeQuantities,
  ...bathQuantities,
} as const satisfies Record<string, Quantity>;

/**
 * Error of a platinum probe compared with a standard platinum resistance thermometer, both read as ratios to one
 * standard resistor, which is one input. Whether its error cancels depends on the triple point of water:
 *
 * - measured as a resistance elsewhere, the resistor moves both channels and all but cancels (0.005 mK per ppm at 72 °C);
 * - measured as a ratio to the same resistor, as is usual, the reference's W is free of the resistor, and the probe's channel
 *   alone moves (0.334 mK per ppm at 72 °C; 0.2 mK to 0.5 mK over the range).
 */
export const sprtBath = {
  id: "sprt-bath",
  title: "Probe compared with a standard platinum resistance thermometer in a stirred bath",
  source: "ITS-90 (Metrologia 27 (1990) 3–10), IEC 60751, clause 4; common practice in comparison calibration",
  parameters: {
    subRange: `The sub-range of ITS-90 that the reference's coefficients belong to, "1" to "11" by their customary numbers`,
    triplePoint: `"resistance" (by default): R(273.16 K) in Ω from elsewhere, input triplePointResistance; "ratio": against the same standard resistor, in the same state, input triplePointRatio`,
  },
  example: { subRange: "8", triplePoint: "ratio" },
  /** @param shown what the probe shows, °C, at R/R_0: by IEC 60751, or by another scale */
  build(parameters: Readonly<Record<string, unknown>>, shown: (ratio: number) => number = temperatureOf): Model {
    refuseUnknown(this, parameters);
    const subRange = subRangeOf(parameters["subRange"], "parameters.subRange");
    const triplePoint = triplePointOf(parameters["triplePoint"]);
    const byRatio = triplePoint === "ratio";
    const names = coefficientNames(subRange);
    const coefficients = new Float64Array(names.length);
    return defineModel({
      id: "sprt-bath",
      title: this.title,
      equation:
        "e = t(ρ_X′·R_s′/R_0) + δt_rep − δt_sh − δt_imm − δt_hys − δt_lag − (t_S + δt_ax + δt_rad + δt_st + δt_load), " +
        "t_S = W_r⁻¹(W − [" +
        subRange.equation +
        "]) − 273.15 °C + δt_cal + δt_nu + δt_sr − δt_sh,S − δt_imm,S − δt_hys,S − δt_lag,S, " +
        (byRatio ? "W = ρ_S′/[ρ_tp·(1 + d_tp)], " : "W = ρ_S′·R_s′/[R_tp·(1 + d_tp)], ") +
        "ρ′ = ρ + δρ, R_s′ = R_s·(1 + α_s·Δt_s)·(1 + d_s)",
      source: this.source!,
      cautions: BATH_CAUTIONS,
      safety: judgeBath,
      toleranceSpecifications: { iec60751: classTolerance },
      measurands: {
        error: { symbol: "e", meaning: "error of the probe at the bath temperature", unit: "°C", difference: true },
        bathTemperature: {
          symbol: "t_S",
          meaning: "temperature of the bath at the reference, t₉₀",
          unit: "°C",
          difference: false,
        },
      },
      inputs: {
        ...before,
        ...triplePoints[triplePoint],
        ...after,
        ...Object.fromEntries(
          names.map((name) => [
            name,
            {
              symbol: name,
              meaning: `coefficient ${name} of the reference in sub-range ${subRange.number}`,
              unit: "1",
            },
          ]),
        ),
      } as typeof before & typeof after,
      optionalInputs,
      evaluate: (x) => {
        const given = x as Readonly<Record<string, number>>;
        const o = x as typeof x & Optional;
        for (let k = 0; k < names.length; k++) coefficients[k] = given[names[k]!]!;
        const resistor = standardResistance(
          {
            resistance: x.standardResistance,
            referenceTemperature: 0,
            alpha: x.resistorAlpha,
            beta: 0,
            drift: x.resistorDrift,
          },
          x.resistorTemperature,
          1,
        );
        // By ratio to the same resistor, its value cancels in W.
        const W = byRatio
          ? (x.referenceRatio + x.referenceBridge) / driftedTriplePoint(given["triplePointRatio"]!, x.triplePointDrift)
          : bridgeResistance(x.referenceRatio, x.referenceBridge, resistor) /
            driftedTriplePoint(given["triplePointResistance"]!, x.triplePointDrift);
        const beyond = (o.nonUniqueness ?? 0) + (o.subRangeInconsistency ?? 0);
        const referenceOnly = (o.referenceImmersion ?? 0) + (o.referenceHysteresis ?? 0) + (o.referenceLag ?? 0);
        const reference =
          temperatureFromRatio(subRange, coefficients, W) -
          273.15 +
          x.referenceCalibration -
          x.referenceSelfHeating +
          (beyond - referenceOnly);
        const probe = shown(bridgeResistance(x.probeRatio, x.probeBridge, resistor) / x.nominalResistance);
        const probeOnly = x.repeatability - x.selfHeating - x.immersion - x.hysteresis - (o.probeLag ?? 0);
        return {
          error: probe + probeOnly - (reference + x.bathAxial + x.bathRadial + x.bathStability + (o.bathLoading ?? 0)),
          bathTemperature: reference,
        };
      },
    });
  },
} as const satisfies ModelFamily;

function triplePointOf(value: unknown): keyof typeof triplePoints {
  if (value === undefined || value === "resistance") return "resistance";
  return value === "ratio" ? value : refuse("parameters.triplePoint", value, `"resistance" or "ratio"`);
}
