import { defineModel } from "trialband";
import calling from "./iec-bath.ts";

const REFERENCE_ZERO = 100.012;
const PROBE_ZERO = 100;
const A = 3.9083e-3;
const B = -5.775e-7;
const HIGHEST = (1 + 850 * (A + 850 * B)) * (1 + 1e-12);

/** The model of `iec-bath.ts` with the conversion written out, from 0 °C up: what calling it costs shows beside it. */
export default defineModel({
  ...calling,
  id: "bench-iec-bath-one-piece",
  evaluate: (x: Readonly<Record<keyof typeof calling.inputs, number>>) => {
    const p = (x.probeResistance + x.probeReadout) / PROBE_ZERO;
    const r = (x.referenceResistance + x.referenceReadout) / REFERENCE_ZERO;
    if (p < 1 || p > HIGHEST || r < 1 || r > HIGHEST) return Number.NaN;
    const probe = (2 * (p - 1)) / (A + Math.sqrt(A * A + 4 * B * (p - 1)));
    const reference = (2 * (r - 1)) / (A + Math.sqrt(A * A + 4 * B * (r - 1))) + x.referenceCertificate;
    const probeOnly = x.repeatability - x.selfHeating - x.immersion - x.hysteresis;
    return probe + probeOnly - (reference + x.bathAxial + x.bathRadial + x.bathStability);
  },
});
