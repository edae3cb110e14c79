import { defineModel } from "trialband";
import { platinum } from "trialband/models";

const { temperatureOf } = platinum.iec60751;

const PROBE_ZERO = 100;
/** The reference, as its certificate gives it (invented): R(273.16 K) in Ω, a and b of the sub-range from 0 °C to 420 °C. */
const TRIPLE_POINT_RESISTANCE = 25.5;
const COEFFICIENTS = Float64Array.of(-2.1e-4, -1.2e-5);
const SUB_RANGE = platinum.subRangeOf("8");

/** The bath of `iec-bath.ts` with a standard thermometer for the reference: its ratio is converted by ITS-90. */
export default defineModel({
  id: "bench-its90-bath",
  title: "Probe compared with a standard platinum resistance thermometer, both read as resistances",
  equation:
    "e = t[(R_X + δR_X)/R_0X] + δt_rep − δt_sh − δt_imm − δt_hys − (t_S + δt_cal + δt_ax + δt_rad + δt_st), t_S by ITS-90",
  source: "ITS-90 (Metrologia 27 (1990) 3–10), IEC 60751, clause 4; common practice in comparison calibration",
  measurands: { error: { symbol: "e", meaning: "error of the probe at the bath temperature", unit: "°C" } },
  inputs: {
    probeResistance: { symbol: "R_X", meaning: "resistance of the probe", unit: "Ω" },
    probeReadout: { symbol: "δR_X", meaning: "correction of the readout on the probe's channel", unit: "Ω" },
    referenceResistance: { symbol: "R_S", meaning: "resistance of the reference", unit: "Ω" },
    referenceReadout: { symbol: "δR_S", meaning: "correction of the readout on the reference's channel", unit: "Ω" },
    referenceCertificate: { symbol: "δt_cal", meaning: "correction of the reference from its certificate", unit: "°C" },
    repeatability: { symbol: "δt_rep", meaning: "change of the probe from one immersion to the next", unit: "°C" },
    selfHeating: { symbol: "δt_sh", meaning: "warming of the probe by its measuring current", unit: "°C" },
    immersion: { symbol: "δt_imm", meaning: "heat conducted along the probe's stem", unit: "°C" },
    hysteresis: { symbol: "δt_hys", meaning: "dependence of the probe on its thermal history", unit: "°C" },
    bathAxial: { symbol: "δt_ax", meaning: "vertical temperature difference between the two", unit: "°C" },
    bathRadial: { symbol: "δt_rad", meaning: "horizontal temperature difference between the two", unit: "°C" },
    bathStability: { symbol: "δt_st", meaning: "change of the bath between the two readings", unit: "°C" },
  },
  evaluate: (x) => {
    const probe = temperatureOf((x.probeResistance + x.probeReadout) / PROBE_ZERO);
    const ratio = (x.referenceResistance + x.referenceReadout) / TRIPLE_POINT_RESISTANCE;
    const reference = platinum.temperatureFromRatio(SUB_RANGE, COEFFICIENTS, ratio) - 273.15 + x.referenceCertificate;
    const probeOnly = x.repeatability - x.selfHeating - x.immersion - x.hysteresis;
    return probe + probeOnly - (reference + x.bathAxial + x.bathRadial + x.bathStability);
  },
});
