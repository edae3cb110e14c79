// Several measurands of the same inputs, returned by name: the record has their correlation and a region that covers both.
//   npx trialband run examples/library/several.ts
import { defineModel, defineStudy } from "trialband";

const divider = defineModel({
  id: "two-resistors",
  title: "Two resistors from one measurement in series and one in parallel",
  equation: "R_1, R_2 = (S ± √(S² − 4·S·P))/2",
  measurands: {
    larger: { symbol: "R_1", meaning: "larger resistance", unit: "Ω" },
    smaller: { symbol: "R_2", meaning: "smaller resistance", unit: "Ω" },
  },
  inputs: {
    series: { symbol: "S", meaning: "resistance in series", unit: "Ω" },
    parallel: { symbol: "P", meaning: "resistance in parallel", unit: "Ω" },
  },
  evaluate: ({ series, parallel }) => {
    const root = Math.sqrt(series * series - 4 * series * parallel);
    return { larger: (series + root) / 2, smaller: (series - root) / 2 };
  },
});

export default defineStudy(divider, {
  title: "Two resistors of a box",
  inputs: {
    series: { distribution: "normal", estimate: 350, standardUncertainty: 0.05 },
    parallel: { distribution: "normal", estimate: 71.428, standardUncertainty: 0.02 },
  },
  trials: 100_000,
  seed: "resistors",
});
