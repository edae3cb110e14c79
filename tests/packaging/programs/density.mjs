// A model in a module of its own, which threads load too.
import { defineModel } from "trialband";

export default defineModel({
  id: "density",
  title: "Density of a body from its mass and volume",
  measurands: { density: { symbol: "ρ", meaning: "density of the body", unit: "kg/m³" } },
  inputs: {
    mass: { symbol: "m", meaning: "mass of the body", unit: "kg" },
    volume: { symbol: "V", meaning: "volume of the body", unit: "m³" },
  },
  evaluate: ({ mass, volume }) => mass / volume,
});

export const study = {
  title: "Density of a check weight",
  inputs: {
    mass: { distribution: "normal", estimate: 1.00002, standardUncertainty: 0.000025 },
    volume: { distribution: "rectangular", estimate: 0.000125, halfWidth: 0.000004 },
  },
  trials: 200_000,
  seed: "packaging",
};
