import { defineModel } from "trialband";
import { platinum } from "trialband/models";

const { temperatureOf } = platinum.iec60751;

/** R₀ of the reference from its certificate, Ω; the probe's is the nominal one. */
const REFERENCE_ZERO = 100.012;
const PROBE_ZERO = 100;

/** Two industrial thermometers in one bath, both read as resistances and converted by IEC 60751: twelve inputs. */
export default defineModel({
  id: "bench-iec-bath",
  title: "Probe compared with an industrial reference, both read as resistances",
  equation:
    "e = t[(R_X + δR_X)/R_0X] + δt_rep − δt_sh − δt_imm − δt_hys − (t[(R_S + δR_S)/R_0S] + δt_cal + δt_ax + δt_rad + δt_st)",
  source: "common practice in comparison calibration; t(R) by IEC 60751, clause 4",
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
    const reference =
      temperatureOf((x.referenceResistance + x.referenceReadout) / REFERENCE_ZERO) + x.referenceCertificate;
    const probeOnly = x.repeatability - x.selfHeating - x.immersion - x.hysteresis;
    return probe + probeOnly - (reference + x.bathAxial + x.bathRadial + x.bathStability);
  },
});
