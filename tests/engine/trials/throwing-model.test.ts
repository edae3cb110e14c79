import { describe, expect, test } from "vitest";
import { defineModel, ModelError, propagate, type Model, readStudy } from "../../../engine/index.ts";
import { evaluatorOf, genericEvaluator } from "../../../engine/evaluator/evaluator.ts";

const quantity = (symbol: string) => ({ symbol, meaning: symbol, unit: "1" });
const modelThat = (f: (a: number) => number): Model =>
  defineModel({
    id: "throws",
    title: "A model that throws",
    measurands: { y: quantity("y") },
    inputs: { a: quantity("a") },
    evaluate: ({ a }) => f(a),
  });

const beyondTwo = modelThat((a) => {
  if (a > 2) throw new RangeError("beyond 2");
  return a;
});
const study = {
  title: "t",
  model: "throws",
  trials: 10_000,
  inputs: { a: { distribution: "normal", estimate: 0, standardUncertainty: 1 } },
};

describe("a model that throws is reported like one that gives NaN", () => {
  test("trial, inputs and message", () => {
    const thrown = caught(() => propagate(beyondTwo, readStudy(study)));
    const notNumber = caught(() =>
      propagate(
        modelThat((a) => (a > 2 ? Number.NaN : a)),
        readStudy(study),
      ),
    );
    expect(thrown).toBeInstanceOf(ModelError);
    expect(notNumber).toBeInstanceOf(ModelError);
    expect((thrown as ModelError).trial).toBe((notNumber as ModelError).trial);
    expect((thrown as ModelError).inputs).toEqual((notNumber as ModelError).inputs);
    expect((thrown as ModelError).inputs["a"]).toBeGreaterThan(2);
    expect((thrown as Error).message).toMatch(/^model throws threw "beyond 2" at trial \d+ \(a = 2\.\d+\)/);
  });

  test("both evaluators find the same trial, with what came before it", () => {
    const column = Float64Array.from([0, 1, 2, 3, 1]);
    const found = [evaluatorOf(beyondTwo), genericEvaluator(beyondTwo)].map((evaluate) => {
      const output = new Float64Array(5);
      return [evaluate([column], [output], 5), ...output.subarray(0, 3)];
    });
    expect(found[0]).toEqual([3, 0, 1, 2]);
    expect(found[1]).toEqual(found[0]);
  });

  test("a model that throws once and not again is not a function: what it threw is passed on", () => {
    let calls = 0;
    const fickle = modelThat((a) => {
      calls += 1;
      if (calls === 2) throw new Error("once");
      return a;
    });
    expect(() => evaluatorOf(fickle)([Float64Array.from([1, 2, 3])], [new Float64Array(3)], 3)).toThrow("once");
  });
});

function caught(run: () => unknown): unknown {
  try {
    run();
  } catch (error) {
    return error;
  }
  return null;
}
