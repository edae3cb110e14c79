import { defineModel } from "trialband";
import { platinum } from "trialband/models";

const { temperatureOf } = platinum.iec60751;

const REFERENCE_ZERO = 100.012;
const PROBE_ZERO = 100;

/** Two probes against one reference at once: their errors share all that the reference and the bath do not know. */
export default defineModel({
  id: "bench-two-probes",
  title: "Two probes compared with one reference in one bath",
  equation:
    "t_b = t[(R_S + δR_S)/R_0S] + δt_cal + δt_st; e_i = t[(R_i + δR_i)/R_0] − δt_hys,i − (t_b + δt_pos,i), i = 1, 2",
  source: "common practice in comparison calibration; t(R) by IEC 60751, clause 4",
  measurands: {
    firstError: { symbol: "e_1", meaning: "error of the first probe", unit: "°C" },
    secondError: { symbol: "e_2", meaning: "error of the second probe", unit: "°C" },
    bathTemperature: { symbol: "t_b", meaning: "temperature of the bath at the reference", unit: "°C" },
  },
  inputs: {
    firstResistance: { symbol: "R_1", meaning: "resistance of the first probe", unit: "Ω" },
    firstReadout: { symbol: "δR_1", meaning: "correction of the readout on the first probe's channel", unit: "Ω" },
    firstHysteresis: {
      symbol: "δt_hys,1",
      meaning: "dependence of the first probe on its thermal history",
      unit: "°C",
    },
    firstPosition: { symbol: "δt_pos,1", meaning: "bath at the first probe less bath at the reference", unit: "°C" },
    secondResistance: { symbol: "R_2", meaning: "resistance of the second probe", unit: "Ω" },
    secondReadout: { symbol: "δR_2", meaning: "correction of the readout on the second probe's channel", unit: "Ω" },
    secondHysteresis: {
      symbol: "δt_hys,2",
      meaning: "dependence of the second probe on its thermal history",
      unit: "°C",
    },
    secondPosition: { symbol: "δt_pos,2", meaning: "bath at the second probe less bath at the reference", unit: "°C" },
    referenceResistance: { symbol: "R_S", meaning: "resistance of the reference", unit: "Ω" },
    referenceReadout: { symbol: "δR_S", meaning: "correction of the readout on the reference's channel", unit: "Ω" },
    referenceCertificate: { symbol: "δt_cal", meaning: "correction of the reference from its certificate", unit: "°C" },
    bathStability: { symbol: "δt_st", meaning: "change of the bath between the readings", unit: "°C" },
  },
  evaluate: (x) => {
    const bathTemperature =
      temperatureOf((x.referenceResistance + x.referenceReadout) / REFERENCE_ZERO) +
      x.referenceCertificate +
      x.bathStability;
    const first = temperatureOf((x.firstResistance + x.firstReadout) / PROBE_ZERO) - x.firstHysteresis;
    const second = temperatureOf((x.secondResistance + x.secondReadout) / PROBE_ZERO) - x.secondHysteresis;
    return {
      firstError: first - (bathTemperature + x.firstPosition),
      secondError: second - (bathTemperature + x.secondPosition),
      bathTemperature,
    };
  },
});
