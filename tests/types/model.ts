// Wrong use must not compile. Checked by `npm run types`; nothing here runs.
import { defineModel, defineStudy } from "../../engine/index.ts";

const q = { symbol: "x", meaning: "x", unit: "1" };
const normal = { distribution: "normal", estimate: 0, standardUncertainty: 1 } as const;

const one = defineModel({
  id: "one",
  title: "one",
  measurands: { y: q },
  inputs: { a: q, b: q },
  evaluate: ({ a, b }) => a + b,
});
const two = defineModel({
  id: "two",
  title: "two",
  measurands: { y: q, z: q },
  inputs: { a: q },
  evaluate: ({ a }) => ({ y: a, z: -a }),
});

defineStudy(one, { title: "t", inputs: { a: normal, b: normal } });
// @ts-expect-error b is never given
defineStudy(one, { title: "t", inputs: { a: normal } });
// @ts-expect-error c is not declared
defineStudy(one, { title: "t", inputs: { a: normal, b: normal, c: normal } });
// @ts-expect-error no such distribution
defineStudy(two, { title: "t", inputs: { a: { distribution: "gauss", estimate: 0 } } });

// @ts-expect-error c is not an input
defineModel({ id: "m", title: "m", measurands: { y: q }, inputs: { a: q }, evaluate: ({ a, c }) => a + c });
// @ts-expect-error z is never returned
defineModel({ id: "m", title: "m", measurands: { y: q, z: q }, inputs: { a: q }, evaluate: ({ a }) => ({ y: a }) });
// @ts-expect-error a bare number where there are two measurands
defineModel({ id: "m", title: "m", measurands: { y: q, z: q }, inputs: { a: q }, evaluate: ({ a }) => a });
// @ts-expect-error text is no number
defineModel({ id: "m", title: "m", measurands: { y: q }, inputs: { a: q }, evaluate: ({ a }) => String(a) });

// A calibration curve reads the model's measurands, and its points the model's inputs.
const argument = { ...q, from: 0, to: 1 };
defineModel({
  id: "m",
  title: "m",
  measurands: { y: q },
  inputs: { a: q },
  calibrationCurve: { argument, value: q, evaluate: ({ y }, x) => y * x, observed: ({ a }) => [[0, a]] },
  evaluate: ({ a }) => a,
});
defineModel({
  id: "m",
  title: "m",
  measurands: { y: q },
  inputs: { a: q },
  // @ts-expect-error z is no measurand
  calibrationCurve: { argument, value: q, evaluate: ({ z }, x) => z * x },
  evaluate: ({ a }) => a,
});
defineModel({
  id: "m",
  title: "m",
  measurands: { y: q },
  inputs: { a: q },
  // @ts-expect-error without the range it is stated for
  calibrationCurve: { argument: q, value: q, evaluate: ({ y }, x) => y * x },
  evaluate: ({ a }) => a,
});
