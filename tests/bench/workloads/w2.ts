import { defineStudy } from "trialband";
import model from "./its90-bath.ts";

/** W2: as W1, the reference a standard thermometer of 25.5 Ω converted by ITS-90. */
export default defineStudy(model, {
  title: "W2: bath comparison at 134 °C, the reference by ITS-90",
  inputs: {
    probeResistance: { distribution: "normal", estimate: 151.3155, standardUncertainty: 0.0006 },
    probeReadout: { distribution: "rectangular", estimate: 0, halfWidth: 0.0012 },
    referenceResistance: { distribution: "normal", estimate: 38.8451, standardUncertainty: 0.0001 },
    referenceReadout: { distribution: "rectangular", estimate: 0, halfWidth: 0.0002 },
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
