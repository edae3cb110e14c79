// A model for threads of the tests, which load it as a module.
export default {
  id: "density",
  title: "Density",
  measurands: { density: { symbol: "ρ", meaning: "density", unit: "kg/m³" } },
  inputs: {
    mass: { symbol: "m", meaning: "mass", unit: "kg" },
    volume: { symbol: "V", meaning: "volume", unit: "m³" },
  },
  evaluate: ({ mass, volume }) => mass / volume,
};

const quantities = {
  inputs: { a: { symbol: "a", meaning: "a", unit: "1" } },
  measurands: { y: { symbol: "y", meaning: "y", unit: "1" } },
};
export const throws = {
  id: "throws",
  title: "A model that has no value above two",
  ...quantities,
  evaluate: ({ a }) => {
    if (a > 2) throw new RangeError("too far out");
    return a;
  },
};
let kept = 0;
export const remembers = {
  id: "remembers",
  title: "A model with a memory",
  ...quantities,
  evaluate: ({ a }) => a + (kept += 1e-9),
};
export const notes = { pages: 3 };
