import { defineStudy } from "trialband";
import model from "./iec-bath.ts";

/** W3: as W1, with a t, a triangular, an arc sine and a gamma input, and two normals that one readout correlates. */
export default defineStudy(model, {
  title: "W3: bath comparison at 134 °C with mixed distributions and a correlated pair",
  inputs: {
    probeResistance: { distribution: "normal", estimate: 151.3155, standardUncertainty: 0.0006 },
    probeReadout: { distribution: "rectangular", estimate: 0, halfWidth: 0.0012 },
    referenceResistance: { distribution: "normal", estimate: 151.33, standardUncertainty: 0.0003 },
    referenceReadout: { distribution: "rectangular", estimate: 0, halfWidth: 0.0008 },
    referenceCertificate: { distribution: "normal", estimate: -0.006, standardUncertainty: 0.005 },
    repeatability: { distribution: "t", estimate: 0, standardUncertainty: 0.003, degreesOfFreedom: 9 },
    selfHeating: { distribution: "rectangular", estimate: 0, halfWidth: 0.003 },
    immersion: { distribution: "gamma", shape: 4, scale: 0.001 },
    hysteresis: { distribution: "triangular", estimate: 0, halfWidth: 0.007 },
    bathAxial: { distribution: "rectangular", estimate: 0, halfWidth: 0.02 },
    bathRadial: { distribution: "rectangular", estimate: 0, halfWidth: 0.006 },
    bathStability: { distribution: "arcsine", estimate: 0, halfWidth: 0.008 },
  },
  correlations: [{ between: ["probeResistance", "referenceResistance"], coefficient: 0.6 }],
  coverage: { probability: 0.95 },
  trials: 1_000_000,
});
