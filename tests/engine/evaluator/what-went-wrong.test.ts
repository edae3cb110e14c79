import { describe, expect, test } from "vitest";
import { ModelError, propagate, type Model } from "trialband";
import { closestName } from "../../../engine/closest-name.ts";

const q = { symbol: "q", meaning: "q", unit: "1" };
/** As a file brings it that no compiler has seen. */
const modelOf = (evaluate: (x: Record<string, number>) => unknown, measurands = ["y"]): Model => ({
  id: "typed-by-hand",
  title: "A model",
  inputs: { a: q, b: q },
  measurands: Object.fromEntries(measurands.map((name) => [name, q])),
  evaluate: evaluate as Model["evaluate"],
});
const statement = { distribution: "normal", estimate: 1, standardUncertainty: 0.1 } as const;
const failureOf = (model: Model): ModelError => {
  try {
    propagate(model, { title: "t", inputs: { a: statement, b: statement }, trials: 10_000 });
  } catch (error) {
    return error as ModelError;
  }
  throw new Error("it did not fail");
};

describe("a model that gives no number says what it gave", () => {
  test.each([
    {
      name: "a Promise",
      of: modelOf(async ({ a }) => a),
      says: "returned a Promise (evaluate must return its value at once, and not be async) at the estimates of its inputs (a = 1, b = 1)",
    },
    { name: "text", of: modelOf(({ a }) => String(a)), says: 'returned "1", a string, for y at the estimates' },
    { name: "nothing", of: modelOf(() => undefined), says: "returned nothing for y at the estimates" },
    { name: "another name", of: modelOf(({ a }) => ({ z: a })), says: "returned z and no y at the estimates" },
    {
      name: "text by name",
      of: modelOf(({ a }) => ({ y: String(a) })),
      says: 'returned "1", a string, for y at the estimates',
    },
    {
      name: "a Promise by name",
      of: modelOf(({ a }) => ({ y: Promise.resolve(a) })),
      says: "returned a Promise for y",
    },
    {
      name: "one number for two",
      of: modelOf(({ a }) => a!, ["y", "z"]),
      says: "returned the number 1 in place of y, z by name",
    },
    { name: "no number", of: modelOf(() => Number.NaN), says: "returned NaN for y at the estimates" },
  ])("$name", ({ of, says }) => {
    const error = failureOf(of);
    expect(error).toBeInstanceOf(ModelError);
    expect(error.message).toContain(`model typed-by-hand ${says}`);
  });

  test("an input that is not declared is named, with the one that is meant", () => {
    expect(failureOf(modelOf(({ a, bb }) => a! * bb!)).message).toMatch(
      /returned NaN for y at the estimates .*; it reads bb, which is no input: did you mean b\?$/,
    );
    expect(failureOf(modelOf(({ pressure }) => pressure!)).message).toMatch(
      /; it reads pressure, which is no input: the inputs are a, b$/,
    );
  });

  test("an exception has its text, the inputs, the file and the line", () => {
    const { message, inputs, trial } = failureOf(
      modelOf(() => {
        throw new RangeError("outside the table");
      }),
    );
    expect(message).toContain('threw "outside the table" at the estimates of its inputs (a = 1, b = 1)');
    expect(message).toMatch(/; thrown at .*what-went-wrong\.test\.ts:\d+:\d+$/);
    expect([inputs, trial]).toEqual([{ a: 1, b: 1 }, null]);
  });

  test("what is no error when thrown has its text and no place", () => {
    const error = failureOf(
      modelOf(() => {
        throw "out of reach"; // oxlint-disable-line no-throw-literal
      }),
    );
    expect(error.message).toMatch(/threw "out of reach" .*expected a finite number for every measurand$/);
  });
});

test.each([
  ["bb", ["a", "b"], "b"],
  ["esitmate", ["estimate", "standardUncertainty"], "estimate"],
  ["halfwidth", ["halfWidth", "lower"], "halfWidth"],
  ["standarduncertanty", ["estimate", "standardUncertainty"], "standardUncertainty"],
  ["x", ["mass"], null],
  ["pressure", ["a", "b"], null],
  ["a", [], null],
])("%s among %j most likely means %s", (typed, known, meant) => {
  expect(closestName(typed, known)).toBe(meant);
});
