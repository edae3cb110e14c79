/** Fluids of a bath by their kind in a study, as a list offers them. */
export const FLUIDS: readonly (readonly [kind: string, words: string])[] = [
  ["", "not stated"],
  ["water", "water"],
  ["water-glycol", "water and ethylene glycol, 1:1"],
  ["ethanol", "ethanol"],
  ["methanol", "methanol"],
  ["silicone-2", "silicone oil, 2 mm²/s"],
  ["silicone-5", "silicone oil, 5 mm²/s"],
  ["silicone-10", "silicone oil, 10 mm²/s"],
  ["silicone-20", "silicone oil, 20 mm²/s"],
  ["silicone-50", "silicone oil, 50 mm²/s"],
  ["silicone-100", "silicone oil, 100 mm²/s"],
  ["phenylmethyl-silicone-125", "phenylmethyl silicone oil, 125 mm²/s"],
  ["mineral-oil", "white mineral oil"],
  ["salt", "salt melt"],
];
