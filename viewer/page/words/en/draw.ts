/** Pictures, in English. `{…}` stands for what is filled in. */
export const drawWords = {
  oneValue: "all at one value",
  noDensity: "{distribution}: no density to draw",
  around: "around {value}",
  range: "{from} to {to}",
  density: "density: {distribution}, {around}",
  equation: "Equation as mathematics",
} as const;
