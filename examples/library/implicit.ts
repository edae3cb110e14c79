// A model that is an equation: the height of a fall in air from its duration, where the drag makes h(s, t) = 0 of it.
//   npx trialband run examples/library/implicit.ts
import { defineStudy, implicitModel } from "trialband";

const fall = implicitModel({
  id: "height-of-fall",
  title: "Height of a fall in air from its duration",
  equation: "½·g·t² − s − d·s² = 0",
  measurands: { height: { symbol: "s", meaning: "height of the fall", unit: "m" } },
  inputs: {
    duration: { symbol: "t", meaning: "duration of the fall", unit: "s" },
    drag: { symbol: "d", meaning: "loss by drag, relative and per metre", unit: "1/m" },
  },
  residual: (s, { duration, drag }) => 4.903325 * duration * duration - s - drag * s * s,
  // The search begins at the height without drag and takes steps of this size.
  start: ({ duration }) => 4.903325 * duration * duration,
  step: 0.1,
});

export default defineStudy(fall, {
  title: "A ball from the gallery",
  inputs: {
    duration: { distribution: "readings", values: [1.012, 1.009, 1.015, 1.011, 1.008] },
    drag: { distribution: "triangular", lower: 0.008, upper: 0.012 },
  },
  trials: 100_000,
  seed: "fall",
});
