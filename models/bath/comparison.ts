import { defineModel, type Quantity } from "../../engine/index.ts";
import { classTolerance } from "../platinum/class-tolerance.ts";
import { temperatureOf } from "../platinum/iec60751.ts";
import { BATH_CAUTIONS, judgeBath } from "../safety/cautions.ts";
import { bathQuantities } from "./bath-quantities.ts";
import { probeQuantities } from "./probe-quantities.ts";

/** Terms an assessor expects beside the usual ones; a study that omits one states the reason under `negligible`. */
export const optionalInputs = {
  referenceSelfHeating: {
    symbol: "δt_sh,S",
    meaning: "warming of the reference by its current beyond that of its calibration",
    unit: "°C",
    difference: true,
  },
  referenceResolution: {
    symbol: "δt_res,S",
    meaning: "rounding of the reference's readout",
    unit: "°C",
    difference: true,
  },
  referenceImmersion: {
    symbol: "δt_imm,S",
    meaning: "heat conducted along the reference's stem",
    unit: "°C",
    difference: true,
  },
  referenceHysteresis: {
    symbol: "δt_hys,S",
    meaning: "dependence of the reference on its thermal history",
    unit: "°C",
    difference: true,
  },
  referenceInterpolation: {
    symbol: "δt_int",
    meaning: "departure of the reference's correction from the straight line between the points of its certificate",
    unit: "°C",
    difference: true,
  },
  referenceLag: {
    symbol: "δt_lag,S",
    meaning: "what the reference reads too much because it lags behind a drifting bath",
    unit: "°C",
    difference: true,
  },
  probeLag: {
    symbol: "δt_lag",
    meaning: "what the probe reads too much because it lags behind a drifting bath",
    unit: "°C",
    difference: true,
  },
  bathLoading: {
    symbol: "δt_load",
    meaning: "difference between the two places in the bath that the probes themselves cause",
    unit: "°C",
    difference: true,
  },
  leads: { symbol: "δR_lead", meaning: "resistance that the leads of the probe add", unit: "Ω" },
  thermalEmf: { symbol: "δR_emf", meaning: "what thermal voltages add to the resistance of the probe", unit: "Ω" },
  insulation: {
    symbol: "δR_ins",
    meaning: "what leakage through the probe's insulation adds to its resistance, below zero",
    unit: "Ω",
  },
} as const satisfies Record<string, Quantity>;

type Optional = Readonly<Partial<Record<keyof typeof optionalInputs, number>>>;

/**
 * Error of indication of a platinum resistance thermometer, read as a resistance, compared with a calibrated reference
 * in a stirred bath. The probe's resistance is converted by IEC 60751; the reference gives its temperature.
 */
export const bathComparison = defineModel({
  id: "bath-comparison",
  title: "Platinum thermometer compared with a reference in a stirred bath",
  equation:
    "e = t(R_X + δR_ro + δR_res − δR_lead − δR_emf − δR_ins) + δt_rep − δt_sh − δt_imm − δt_hys − δt_lag − (t_S + δt_cal + δt_int + δt_dr + δt_ro + δt_res,S − δt_sh,S − δt_imm,S − δt_hys,S − δt_lag,S + δt_ax + δt_rad + δt_st + δt_load)",
  source: "common practice in comparison calibration; t(R) by IEC 60751, clause 4",
  cautions: BATH_CAUTIONS,
  safety: judgeBath,
  toleranceSpecifications: { iec60751: classTolerance },
  measurands: {
    error: { symbol: "e", meaning: "error of the probe at the bath temperature", unit: "°C", difference: true },
  },
  inputs: {
    probeResistance: { symbol: "R_X", meaning: "resistance of the probe, mean of the indications", unit: "Ω" },
    nominalResistance: { symbol: "R_0", meaning: "nominal resistance of the probe at 0 °C", unit: "Ω" },
    probeReadout: {
      symbol: "δR_ro",
      meaning: "correction of the resistance readout on the probe's channel",
      unit: "Ω",
    },
    probeResolution: { symbol: "δR_res", meaning: "rounding of the resistance readout", unit: "Ω" },
    ...probeQuantities,
    referenceReading: {
      symbol: "t_S",
      meaning: "temperature indicated by the reference, mean of the indications",
      unit: "°C",
    },
    referenceCertificate: {
      symbol: "δt_cal",
      meaning: "correction of the reference from its certificate",
      unit: "°C",
      difference: true,
    },
    referenceDrift: {
      symbol: "δt_dr",
      meaning: "drift of the reference since its calibration",
      unit: "°C",
      difference: true,
    },
    referenceReadout: {
      symbol: "δt_ro",
      meaning: "correction of the readout on the reference's channel",
      unit: "°C",
      difference: true,
    },
    ...bathQuantities,
  },
  optionalInputs,
  evaluate: (x) => comparisonError(x),
});

type Comparison = Readonly<
  Record<
    | "probeResistance"
    | "nominalResistance"
    | "probeReadout"
    | "probeResolution"
    | "selfHeating"
    | "immersion"
    | "hysteresis"
    | "repeatability"
    | keyof typeof bathQuantities,
    number
  >
>;

/** R/R_0 of the probe, from one trial's inputs of `bathComparison`. */
export function probeRatio(x: Comparison & Optional): number {
  const circuit = (x.leads ?? 0) + (x.thermalEmf ?? 0) + (x.insulation ?? 0);
  const resistance = x.probeResistance + x.probeReadout + x.probeResolution - circuit;
  return resistance / x.nominalResistance;
}

/** Error of a probe that shows the temperature `probe` in °C, from one trial's inputs of `bathComparison`. */
export function errorShowing(probe: number, x: Comparison & Reference & Optional): number {
  const probeOnly = x.repeatability - x.selfHeating - x.immersion - x.hysteresis - (x.probeLag ?? 0);
  return probe - x.referenceReading + probeOnly - referenceCorrections(x) - bathDifferences(x);
}

/** Error of the probe in °C, from one trial's inputs of `bathComparison`. */
export const comparisonError = (x: Comparison & Reference & Optional): number =>
  errorShowing(temperatureOf(probeRatio(x)), x);

type Reference = Readonly<
  Record<"referenceReading" | "referenceCertificate" | "referenceDrift" | "referenceReadout", number>
>;

const bathDifferences = (x: Readonly<Record<keyof typeof bathQuantities, number>> & Optional): number =>
  x.bathAxial + x.bathRadial + x.bathStability + (x.bathLoading ?? 0);

function referenceCorrections(x: Reference & Optional): number {
  const referenceOnly =
    (x.referenceInterpolation ?? 0) +
    (x.referenceResolution ?? 0) -
    (x.referenceSelfHeating ?? 0) -
    (x.referenceImmersion ?? 0) -
    (x.referenceHysteresis ?? 0) -
    (x.referenceLag ?? 0);
  return x.referenceCertificate + x.referenceDrift + x.referenceReadout + referenceOnly;
}

/** Temperature of the bath at the probe's place in °C, from one trial's inputs of `bathComparison`. */
export const bathTemperatureAtProbe = (x: Readonly<Record<string, number>>): number => {
  const given = x as Reference & Parameters<typeof bathDifferences>[0];
  return given.referenceReading + referenceCorrections(given) + bathDifferences(given);
};
