import { describe, expect, test } from "vitest";
import { defineModel, prepare, propagate, readStudy, show, type Model } from "../../../engine/index.ts";
import { MAXIMUM_INPUTS } from "../../../engine/internal.ts";
import { secondOrder } from "../../../engine/linear/second-order.ts";

/** A sum of `n` inputs that counts how often it is evaluated. */
function sumOf(n: number): { readonly model: Model; readonly document: object; evaluations: () => number } {
  const names = Array.from({ length: n }, (_, i) => `x${i}`);
  let count = 0;
  const q = { symbol: "x", meaning: "x", unit: "1" };
  const model = defineModel({
    id: "sum",
    title: "sum",
    measurands: { y: q },
    inputs: Object.fromEntries(names.map((name) => [name, q])),
    evaluate: (x: Readonly<Record<string, number>>) => {
      count += 1;
      return names.reduce((sum, name) => sum + x[name]!, 0);
    },
  }) as Model;
  const inputs = Object.fromEntries(
    names.map((name) => [name, { distribution: "normal", estimate: 1, standardUncertainty: 1 }]),
  );
  return { model, document: { title: "t", model: "sum", trials: 2000, inputs }, evaluations: () => count };
}

describe("many inputs", () => {
  test("are refused beyond a bound, before they are read", () => {
    expect(() => readStudy(sumOf(MAXIMUM_INPUTS + 1).document)).toThrow(
      `inputs: got "${MAXIMUM_INPUTS + 1} inputs"; expected at most ${MAXIMUM_INPUTS} inputs`,
    );
  });

  test("a budget takes a number of evaluations that grows with the number of inputs, not faster", () => {
    const [few, many] = [50, 200].map((n) => {
      const { model, document, evaluations } = sumOf(n);
      prepare(model, readStudy(document));
      return evaluations() / n;
    });
    expect(many!).toBeLessThan(1.2 * few!);
  });

  test("beyond a hundred have no next-order terms, which would take the square of their number", () => {
    const { model, document } = sumOf(101);
    expect(propagate(model, readStudy(document)).measurands["y"]!.secondOrder).toBeNull();
    const fewer = sumOf(20);
    expect(propagate(fewer.model, readStudy(fewer.document)).measurands["y"]!.secondOrder).not.toBeNull();
  });

  test("next-order terms take four values of the model a pair of inputs and four an input, with two steps", () => {
    const inputs = 20;
    const { model, evaluations } = sumOf(inputs);
    const line = { estimate: 1, standardUncertainty: 1, degreesOfFreedom: Infinity, evaluation: "B" } as const;
    const lines = Object.fromEntries(Object.keys(model.inputs).map((name) => [name, line]));
    const before = evaluations();
    expect(secondOrder(model, lines, "y", Math.sqrt(inputs))).not.toBeNull();
    expect(evaluations() - before).toBe(1 + 2 * (4 * inputs + (4 * inputs * (inputs - 1)) / 2));
  });
});

test("a value nested beyond the stack, or in a circle, is shown all the same", () => {
  let deep: unknown = 1;
  for (let i = 0; i < 100_000; i++) deep = [deep];
  expect(show(deep)).toBe("a list");
  const circle: Record<string, unknown> = {};
  circle["self"] = circle;
  expect(show(circle)).toBe("an object");
});
