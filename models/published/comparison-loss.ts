import { defineModel } from "../../engine/index.ts";

/** Comparison loss in the calibration of a microwave power meter: JCGM 101:2008, 9.4. */
export const comparisonLoss = defineModel({
  id: "comparison-loss",
  title: "Comparison loss (JCGM 101, 9.4)",
  equation: "δY = X_1² + X_2²",
  source: "JCGM 101:2008, 9.4.1.2",
  measurands: { loss: { symbol: "δY", meaning: "comparison loss", unit: "1" } },
  inputs: {
    real: { symbol: "X_1", meaning: "real part of the input reflection product", unit: "1" },
    imaginary: { symbol: "X_2", meaning: "imaginary part of the input reflection product", unit: "1" },
  },
  evaluate: ({ real, imaginary }) => real * real + imaginary * imaginary,
});
