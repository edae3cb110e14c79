// Sensitivity without linearisation: which share of the variance each input has by itself and with the others (Sobol'
// indices), where sensitivity coefficients say nothing, since they are 0 at the estimates.
//   npx trialband run examples/library/sensitivity.ts
import { defineModel, defineStudy } from "trialband";

const product = defineModel({
  id: "product-of-deviations",
  title: "A product of two deviations, and a third",
  equation: "y = a·b + c",
  measurands: { y: { symbol: "y", meaning: "what remains", unit: "1" } },
  inputs: {
    a: { symbol: "a", meaning: "first deviation", unit: "1" },
    b: { symbol: "b", meaning: "second deviation", unit: "1" },
    c: { symbol: "c", meaning: "third deviation", unit: "1" },
  },
  evaluate: ({ a, b, c }) => a * b + c,
});

const deviation = { distribution: "normal", estimate: 0, standardUncertainty: 1 } as const;

export default defineStudy(product, {
  title: "Deviations that only matter together",
  inputs: { a: deviation, b: deviation, c: deviation },
  sensitivity: { trials: 50_000 },
  trials: 100_000,
  seed: "product",
});
