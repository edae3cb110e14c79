// A distribution of one's own, as points of its density: a bath whose control swings between two temperatures, and lingers
// at both. What no kind of distribution names is stated by points (straight lines between them), by points of the
// distribution function ("tabulated-distribution"), or by many values to be drawn from ("sample").
//   npx trialband run examples/library/own-distribution.ts
import { defineModel, defineStudy } from "trialband";

/** Its area between −1 and 1 is 1. */
const density = (x: number): number => (0.2 + x * x * x * x) / 0.8;
const values = Array.from({ length: 81 }, (_, i) => -1 + i / 40);

const place = defineModel({
  id: "swinging-bath",
  title: "Temperature in a bath that swings",
  measurands: { temperature: { symbol: "t", meaning: "temperature at the place", unit: "°C", difference: false } },
  inputs: {
    mean: { symbol: "t_m", meaning: "mean temperature", unit: "°C", difference: false },
    swing: { symbol: "s", meaning: "swing, in parts of its half-width", unit: "1" },
    halfWidth: { symbol: "a", meaning: "half-width of the swing", unit: "°C", difference: true },
  },
  evaluate: ({ mean, swing, halfWidth }) => mean + swing * halfWidth,
});

export default defineStudy(place, {
  title: "A bath at 72 °C",
  inputs: {
    mean: { distribution: "normal", estimate: 72, standardUncertainty: 0.002 },
    swing: { distribution: "tabulated-density", values, densities: values.map(density) },
    halfWidth: { distribution: "rectangular", estimate: 0.02, halfWidth: 0.004 },
  },
  trials: 100_000,
  seed: "swing",
});
