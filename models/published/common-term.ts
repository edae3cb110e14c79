import { defineModel } from "../../engine/index.ts";

/** Two measurands that share an input: the examples of JCGM 102:2011, 6.5.2.3, 7.7.2 to 7.7.4 and 9.2. */
export const commonTerm = defineModel({
  id: "common-term",
  title: "Two sums with a term in common (JCGM 102, 6.5.2.3)",
  equation: "Y_1 = X_1 + X_3; Y_2 = X_2 + X_3",
  source: "JCGM 102:2011, 6.5.2.3, example 2; 9.2.1",
  measurands: {
    first: { symbol: "Y_1", meaning: "first sum", unit: "1" },
    second: { symbol: "Y_2", meaning: "second sum", unit: "1" },
  },
  inputs: {
    own1: { symbol: "X_1", meaning: "term of the first sum alone", unit: "1" },
    own2: { symbol: "X_2", meaning: "term of the second sum alone", unit: "1" },
    shared: { symbol: "X_3", meaning: "term of both sums", unit: "1" },
  },
  evaluate: ({ own1, own2, shared }) => ({ first: own1 + shared, second: own2 + shared }),
});
