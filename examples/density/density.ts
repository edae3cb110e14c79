// A model of one's own: a typed function of named inputs. Run its study with
//   npx trialband run examples/density/check-weight.json
import { defineModel } from "trialband";

export default defineModel({
  id: "density",
  title: "Density of a body from its mass and volume",
  equation: "ρ = m / V",
  source: "definition of density",
  measurands: { density: { symbol: "ρ", meaning: "density of the body", unit: "kg/m³" } },
  inputs: {
    mass: { symbol: "m", meaning: "mass of the body", unit: "kg" },
    volume: { symbol: "V", meaning: "volume of the body", unit: "m³" },
  },
  evaluate: ({ mass, volume }) => mass / volume,
});
