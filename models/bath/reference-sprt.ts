import { defineModel, type Model, type ModelFamily, type Quantity } from "../../engine/index.ts";
import { bridgeResistance } from "../platinum/chain/bridge.ts";
import { standardResistance } from "../platinum/chain/standard-resistor.ts";
import { driftedTriplePoint } from "../platinum/chain/triple-point-drift.ts";
import { temperatureOf } from "../platinum/iec60751.ts";
import { coefficientNames, subRangeOf } from "../platinum/its90/sub-ranges.ts";
import { temperatureFromRatio } from "../platinum/its90/thermometer.ts";
import { refuseUnknown } from "../platinum/parameters.ts";
import { BATH_CAUTIONS, judgeBath } from "../evaluation/safety/cautions.ts";

const inputs = {
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
  triplePointResistance: {
    symbol: "R_tp",
    meaning: "resistance of the reference at the triple point of water",
    unit: "Ω",
  },
  triplePointDrift: { symbol: "d_tp", meaning: "relative change of R_tp since it was measured", unit: "1" },
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
  selfHeating: {
    symbol: "δt_sh",
    meaning: "warming of the probe by its measuring current",
    unit: "°C",
    difference: true,
  },
  immersion: { symbol: "δt_imm", meaning: "heat conducted along the probe's stem", unit: "°C", difference: true },
  hysteresis: {
    symbol: "δt_hys",
    meaning: "dependence of the probe on its thermal history",
    unit: "°C",
    difference: true,
  },
  repeatability: {
    symbol: "δt_rep",
    meaning: "change of the probe from one immersion to the next",
    unit: "°C",
    difference: true,
  },
  bathAxial: {
    symbol: "δt_ax",
    meaning: "vertical temperature difference between the two thermometers",
    unit: "°C",
    difference: true,
  },
  bathRadial: {
    symbol: "δt_rad",
    meaning: "horizontal temperature difference between the two thermometers",
    unit: "°C",
    difference: true,
  },
  bathStability: {
    symbol: "δt_st",
    meaning: "change of the bath between the two readings",
    unit: "°C",
    difference: true,
  },
} as const satisfies Record<string, Quantity>;

/**
 * Error of a platinum probe compared with a standard platinum resistance thermometer, both read as ratios to one
 * standard resistor. That resistor is one input: its error moves both channels and all but cancels (0.005 mK per ppm,
 * where one channel alone moves by 0.2 mK to 0.5 mK).
 */
export const sprtBath: ModelFamily = {
  id: "sprt-bath",
  title: "Probe compared with a standard platinum resistance thermometer in a stirred bath",
  source: "ITS-90 (Metrologia 27 (1990) 3–10), IEC 60751, clause 4; common practice in comparison calibration",
  parameters: {
    subRange: `The sub-range of ITS-90 that the reference's coefficients belong to, "1" to "11" by their customary numbers`,
  },
  build(parameters): Model {
    refuseUnknown(this, parameters);
    const subRange = subRangeOf(parameters["subRange"], "parameters.subRange");
    const names = coefficientNames(subRange);
    const coefficients = new Float64Array(names.length);
    return defineModel({
      id: "sprt-bath",
      title: this.title,
      equation:
        "e = t(ρ_X′·R_s′/R_0) + δt_rep − δt_sh − δt_imm − δt_hys − (t_S + δt_ax + δt_rad + δt_st), " +
        "t_S = W_r⁻¹(W − [" +
        subRange.equation +
        "]) − 273.15 °C + δt_cal − δt_sh,S, W = ρ_S′·R_s′/[R_tp·(1 + d_tp)], " +
        "ρ′ = ρ + δρ, R_s′ = R_s·(1 + α_s·Δt_s)·(1 + d_s)",
      source: this.source!,
      cautions: BATH_CAUTIONS,
      safety: judgeBath,
      measurands: {
        error: { symbol: "e", meaning: "error of the probe at the bath temperature", unit: "°C", difference: true },
        bathTemperature: { symbol: "t_S", meaning: "temperature of the bath at the reference, t₉₀", unit: "°C" },
      },
      inputs: {
        ...inputs,
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
      } as typeof inputs,
      evaluate: (x) => {
        const given = x as Readonly<Record<string, number>>;
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
        const W =
          bridgeResistance(x.referenceRatio, x.referenceBridge, resistor) /
          driftedTriplePoint(x.triplePointResistance, x.triplePointDrift);
        const reference =
          temperatureFromRatio(subRange, coefficients, W) - 273.15 + x.referenceCalibration - x.referenceSelfHeating;
        const probe = temperatureOf(bridgeResistance(x.probeRatio, x.probeBridge, resistor) / x.nominalResistance);
        const probeOnly = x.repeatability - x.selfHeating - x.immersion - x.hysteresis;
        return {
          error: probe + probeOnly - (reference + x.bathAxial + x.bathRadial + x.bathStability),
          bathTemperature: reference,
        };
      },
    }) as unknown as Model;
  },
};
