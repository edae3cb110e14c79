import { expect, test } from "vitest";
import { defineModel, ModelError, prepare, readStudy, type Model } from "../../../engine/index.ts";
import { requirePure } from "../../../engine/internal.ts";
import { modelOf, readExample } from "../../read-example.ts";

const q = { symbol: "x", meaning: "x", unit: "1" };
const study = readStudy({
  title: "t",
  model: "m",
  inputs: { x: { distribution: "normal", estimate: 1, standardUncertainty: 1 } },
});
const modelWith = (evaluate: (inputs: { readonly x: number }) => number): Model =>
  defineModel({ id: "m", title: "m", measurands: { y: q }, inputs: { x: q }, evaluate }) as Model;
const check = (model: Model): void => requirePure(model, prepare(model, study).source);

test("a model whose value depends on more than its inputs is found", () => {
  let last = 0;
  let count = 0;
  const impure: Readonly<Record<string, Model>> = {
    "Math.random": modelWith(({ x }) => x + Math.random()),
    "the trial before": modelWith(({ x }) => {
      const before = last;
      last = x;
      return x + before;
    }),
    "a count": modelWith(({ x }) => x + (count++ % 5)),
  };
  for (const [name, model] of Object.entries(impure)) expect(() => check(model), name).toThrow(ModelError);
});

test("a pure one passes, one that keeps values it made before or is undefined somewhere too", () => {
  const known = new Map<number, number>();
  check(
    modelWith(({ x }) => {
      if (!known.has(x)) known.set(x, x * x);
      return known.get(x)!;
    }),
  );
  check(modelWith(({ x }) => (x > 0 ? Math.sqrt(x) : x < -0.5 ? Number.NaN : 0)));
  for (const id of ["harrowfen/cold-store-4", "published/impedance"]) {
    const model = modelOf(readExample(id));
    requirePure(model, prepare(model, readStudy(readExample(id))).source);
  }
});
