// Wrong use must not compile. Checked by `npm run types`; nothing here runs.
import {
  defineModel,
  defineStudy,
  drawTrials,
  propagate,
  propagation,
  readStudy,
  type Model,
} from "../../engine/index.ts";

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

// A record, and every trial, has the names that the model declares.
const defined = defineStudy(one, { title: "t", inputs: { a: normal, b: normal } });
const record = propagate(defined);
void record.measurands.y.validation.sentence;
void record.inputs.a.standardUncertainty;
// @ts-expect-error no such measurand
void record.measurands.z;
// @ts-expect-error no such input
void record.inputs.c;
void propagate(two, { title: "t", inputs: { a: normal } }).measurands.z.monteCarlo.estimate;
void propagate(two, readStudy({})).measurands.z.monteCarlo.estimate;
// @ts-expect-error a is never given
propagate(two, { title: "t", inputs: {} });
// @ts-expect-error c is not declared
propagate(two, { title: "t", inputs: { a: normal, c: normal } });
// @ts-expect-error a document of which nothing is known was never checked
propagate(two, JSON.parse("{}") as unknown);
// @ts-expect-error no such option
propagate(two, { title: "t", inputs: { a: normal } }, { onprogress: () => undefined });
for (const { inputs, measurands } of drawTrials(defined, { trials: 1000 })) {
  void [inputs.a.length, measurands.y.length];
  // @ts-expect-error no such measurand
  void measurands.z;
}
const step = propagation(defined).next();
if (step.done) void step.value.measurands.y.linear.estimate;
else void step.value.trials;

// An input that may be left out is known by its name, and may be missing.
const partly = defineModel({
  id: "partly",
  title: "partly",
  measurands: { y: q },
  inputs: { a: q },
  optionalInputs: { b: q },
  // @ts-expect-error b may be missing
  evaluate: ({ a, b }) => a + b,
});
const stated = propagate(partly, { title: "t", inputs: { a: normal, b: normal } });
void stated.inputs.b?.estimate;
// @ts-expect-error it may have been left out
void stated.inputs.b.estimate;
// @ts-expect-error c is not declared
propagate(partly, { title: "t", inputs: { a: normal, c: normal } });

// Any model is one whose names are not known.
const models: readonly Model[] = [one, two, partly];
void models;

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
