import { defineStudy } from "trialband";
import model from "./iec-bath.ts";

/** W1: four normal and eight rectangular inputs at 134 °C (invented). The peers hold the same constants. */
export default defineStudy(model, {
  title: "W1: bath comparison at 134 °C, both thermometers by IEC 60751",
  inputs: {
    probeResistance: { distribution: "normal", estimate: 151.3155, standardUncertainty: 0.0006 },
    probeReadout: { distribution: "rectangular", estimate: 0, halfWidth: 0.0012 },
    referenceResistance: { distribution: "normal", estimate: 151.33, standardUncertainty: 0.0003 },
    referenceReadout: { distribution: "rectangular", estimate: 0, halfWidth: 0.0008 },
    referenceCertificate: { distribution: "normal", estimate: -0.006, standardUncertainty: 0.005 },
    repeatability: { distribution: "normal", estimate: 0, standardUncertainty: 0.003 },
    selfHeating: { distribution: "rectangular", estimate: 0, halfWidth: 0.003 },
    immersion: { distribution: "rectangular", estimate: 0, halfWidth: 0.004 },
    hysteresis: { distribution: "rectangular", estimate: 0, halfWidth: 0.007 },
    bathAxial: { distribution: "rectangular", estimate: 0, halfWidth: 0.02 },
    bathRadial: { distribution: "rectangular", estimate: 0, halfWidth: 0.006 },
    bathStability: { distribution: "rectangular", estimate: 0, halfWidth: 0.008 },
  },
  coverage: { probability: 0.95 },
  trials: 1_000_000,
});
