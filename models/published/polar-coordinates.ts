import { defineModel, elementary } from "../../engine/index.ts";

/** Cartesian to polar co-ordinates of a complex quantity: JCGM 102:2011, 9.3. */
export const polarCoordinates = defineModel({
  id: "polar-coordinates",
  title: "Co-ordinate system transformation (JCGM 102, 9.3)",
  equation: "Y_1 = √(X_1² + X_2²); Y_2 = atan2(X_2, X_1)",
  source: "JCGM 102:2011, 9.3.1",
  measurands: {
    modulus: { symbol: "Y_1", meaning: "modulus", unit: "1" },
    phase: { symbol: "Y_2", meaning: "phase", unit: "rad" },
  },
  inputs: {
    real: { symbol: "X_1", meaning: "real part", unit: "1" },
    imaginary: { symbol: "X_2", meaning: "imaginary part", unit: "1" },
  },
  evaluate: ({ real, imaginary }) => ({
    modulus: Math.sqrt(real * real + imaginary * imaginary),
    phase: elementary.atan2(imaginary, real),
  }),
});
