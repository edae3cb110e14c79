import { defineStudy } from "trialband";
import model from "./two-probes.ts";

/** W6: three measurands at once, with their coverage ellipsoid (JCGM 102). */
export default defineStudy(model, {
  title: "W6: two probes against one reference at 134 °C, three measurands",
  inputs: {
    firstResistance: { distribution: "normal", estimate: 151.3155, standardUncertainty: 0.0006 },
    firstReadout: { distribution: "rectangular", estimate: 0, halfWidth: 0.0012 },
    firstHysteresis: { distribution: "rectangular", estimate: 0, halfWidth: 0.007 },
    firstPosition: { distribution: "rectangular", estimate: 0, halfWidth: 0.02 },
    secondResistance: { distribution: "normal", estimate: 151.309, standardUncertainty: 0.0007 },
    secondReadout: { distribution: "rectangular", estimate: 0, halfWidth: 0.0012 },
    secondHysteresis: { distribution: "rectangular", estimate: 0, halfWidth: 0.005 },
    secondPosition: { distribution: "rectangular", estimate: 0, halfWidth: 0.015 },
    referenceResistance: { distribution: "normal", estimate: 151.33, standardUncertainty: 0.0003 },
    referenceReadout: { distribution: "rectangular", estimate: 0, halfWidth: 0.0008 },
    referenceCertificate: { distribution: "normal", estimate: -0.006, standardUncertainty: 0.005 },
    bathStability: { distribution: "rectangular", estimate: 0, halfWidth: 0.008 },
  },
  coverage: { probability: 0.95 },
  trials: 1_000_000,
});
