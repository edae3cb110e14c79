import { defineModel } from "../../engine/index.ts";
import { classTolerance } from "../platinum/class-tolerance.ts";
import { temperatureOf } from "../platinum/iec60751.ts";
import { BATH_CAUTIONS, judgeBath } from "../evaluation/safety/cautions.ts";

/**
 * Error of indication of a platinum resistance thermometer, read as a resistance, compared with a calibrated reference
 * in a stirred bath. The probe's resistance is converted by IEC 60751; the reference gives its temperature.
 */
export const bathComparison = defineModel({
  id: "bath-comparison",
  title: "Platinum thermometer compared with a reference in a stirred bath",
  equation:
    "e = t(R_X + δR_ro + δR_res) + δt_rep − δt_sh − δt_imm − δt_hys − (t_S + δt_cal + δt_dr + δt_ro + δt_ax + δt_rad + δt_st)",
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
  },
  evaluate: (x) => {
    const probe = temperatureOf((x.probeResistance + x.probeReadout + x.probeResolution) / x.nominalResistance);
    const probeOnly = x.repeatability - x.selfHeating - x.immersion - x.hysteresis;
    const corrections = x.referenceCertificate + x.referenceDrift + x.referenceReadout;
    const bath = x.bathAxial + x.bathRadial + x.bathStability;
    return probe - x.referenceReading + probeOnly - corrections - bath;
  },
});
