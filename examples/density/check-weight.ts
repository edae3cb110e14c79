// The same study written in TypeScript: the compiler refuses an input that is missing or that the model does not have.
//   npx trialband run examples/density/check-weight.ts
import { defineStudy } from "trialband";
import density from "./density.ts";

export default defineStudy(density, {
  title: "Density of check weight HW-3",
  laboratory: "Harrowfen Calibration Room (invented)",
  inputs: {
    mass: {
      distribution: "normal",
      estimate: 1.00002,
      expandedUncertainty: 0.00005,
      coverageFactor: 2,
      source: "certificate of the weight (invented)",
    },
    volume: {
      distribution: "rectangular",
      estimate: 0.000125,
      halfWidth: 0.000004,
      source: "three drawings of the weight (invented)",
    },
  },
  coverage: { probability: 0.95 },
  trials: 1_000_000,
  seed: "check-weight",
});
