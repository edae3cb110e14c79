// A model with a table: the correction of a thermometer is read between the lines of a file, which is imported.
//   npx trialband run examples/library/table.ts
import { defineModel, defineStudy } from "trialband";
import table from "./corrections.json" with { type: "json" };

/** The value between two lines of the table; what lies outside it has none. */
function interpolated(xs: readonly number[], ys: readonly number[], x: number): number {
  const first = xs[0]!;
  const last = xs.at(-1)!;
  if (!(x >= first && x <= last)) throw new RangeError(`${x} lies outside the table, from ${first} to ${last}`);
  let i = 1;
  while (x > xs[i]!) i += 1;
  return ys[i - 1]! + ((ys[i]! - ys[i - 1]!) * (x - xs[i - 1]!)) / (xs[i]! - xs[i - 1]!);
}

const corrected = defineModel({
  id: "corrected-reading",
  title: "A reading with the correction of a table",
  measurands: { temperature: { symbol: "t", meaning: "corrected temperature", unit: "°C", difference: false } },
  inputs: {
    reading: { symbol: "t_r", meaning: "reading of the thermometer", unit: "°C", difference: false },
    between: { symbol: "δ", meaning: "departure between the lines of the table", unit: "°C", difference: true },
  },
  evaluate: ({ reading, between }) => reading + interpolated(table.temperature, table.correction, reading) + between,
});

export default defineStudy(corrected, {
  title: "A reading near 40 °C, where the table bends",
  inputs: {
    reading: { distribution: "normal", estimate: 40, standardUncertainty: 2 },
    between: { distribution: "rectangular", estimate: 0, halfWidth: 0.002 },
  },
  trials: 100_000,
  seed: "table",
});
