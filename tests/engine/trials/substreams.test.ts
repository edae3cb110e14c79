// What JCGM 101 leaves to the implementer and Trialband promises: identical bits however the work is divided.
import { describe, expect, test } from "vitest";
import { defineModel, InputError, ModelError, prepare, propagate, readStudy } from "../../../engine/index.ts";
import { openTrials } from "../../../engine/internal.ts";
import { genericEvaluator, evaluatorOf } from "../../../engine/evaluator/evaluator.ts";

const quantity = (symbol: string) => ({ symbol, meaning: symbol, unit: "1" });
const pair = defineModel({
  id: "pair",
  title: "Two inputs passed through",
  measurands: { a: quantity("a"), b: quantity("b") },
  inputs: { first: quantity("x_1"), second: quantity("x_2") },
  evaluate: ({ first, second }) => ({ a: first, b: second }),
});

const study = (first: object, second: object, more: object = {}) =>
  readStudy({ title: "t", model: "pair", trials: 25_000, inputs: { first, second }, ...more });
const normal = { distribution: "normal", estimate: 0, standardUncertainty: 1 };
const limits = { distribution: "rectangular", estimate: 0, halfWidth: 1 };

describe("substreams", () => {
  test("another distribution for one input leaves the other's draws as they were", () => {
    const before = openTrials(prepare(pair, study(normal, normal)).source)(0, 10_000);
    const after = openTrials(prepare(pair, study(limits, normal)).source)(0, 10_000);
    expect(after.measurands[1]!.values).toEqual(before.measurands[1]!.values);
    expect(after.measurands[0]!.values).not.toEqual(before.measurands[0]!.values);
  });

  test("an input more leaves the draws of the others as they were", () => {
    const three = defineModel({
      id: "three",
      title: "Three inputs",
      measurands: { b: quantity("b") },
      inputs: { zeroth: quantity("x_0"), second: quantity("x_2"), first: quantity("x_1") },
      evaluate: ({ second }) => second,
    });
    const prepared = prepare(
      three,
      readStudy({ title: "t", model: "three", inputs: { zeroth: normal, first: normal, second: normal } }),
    );
    const alone = openTrials(prepare(pair, study(normal, normal)).source)(0, 5000);
    expect(openTrials(prepared.source)(0, 5000).measurands[0]!.values).toEqual(alone.measurands[1]!.values);
  });

  test("batches drawn in any order, or part of one, are the same trials", () => {
    const prepared = prepare(pair, study(normal, limits));
    const forwards = openTrials(prepared.source);
    const backwards = openTrials(prepared.source);
    const a = [forwards(0, 10_000), forwards(10_000, 10_000)];
    const b = [backwards(10_000, 10_000), backwards(0, 10_000)];
    expect([b[1], b[0]]).toEqual(a);
  });

  test("other seeds give other trials", () => {
    const one = openTrials(prepare(pair, study(normal, normal, { seed: "1" })).source)(0, 2500);
    const two = openTrials(prepare(pair, study(normal, normal, { seed: "2" })).source)(0, 2500);
    expect(one.measurands[0]!.values).not.toEqual(two.measurands[0]!.values);
  });

  test("a whole run reproduces exactly", () => {
    const document = { title: "t", model: "pair", trials: 33_333, inputs: { first: normal, second: limits } };
    expect(JSON.stringify(propagate(pair, readStudy(document)))).toBe(
      JSON.stringify(propagate(pair, readStudy(document))),
    );
  });
});

describe("evaluator", () => {
  test("the generated loop gives the bits of the plain one", () => {
    const columns = [0, 1].map(() => Float64Array.from({ length: 500 }, (_, i) => Math.sqrt(i) - 7));
    const outputs = () => [new Float64Array(500), new Float64Array(500)];
    const [fast, plain] = [outputs(), outputs()];
    expect(evaluatorOf(pair)(columns, fast, 500)).toBe(-1);
    expect(genericEvaluator(pair)(columns, plain, 500)).toBe(-1);
    expect(fast).toEqual(plain);
  });

  test("a trial that is not finite is named with its values", () => {
    const root = defineModel({
      id: "root",
      title: "Square root",
      measurands: { y: quantity("y") },
      inputs: { x: quantity("x") },
      evaluate: ({ x }) => Math.sqrt(x),
    });
    const run = () =>
      propagate(root, {
        title: "t",
        model: "root",
        inputs: { x: { distribution: "normal", estimate: 3, standardUncertainty: 1 } },
      });
    expect(run).toThrow(ModelError);
    try {
      run();
    } catch (error) {
      const { trial, inputs, message } = error as ModelError;
      expect(inputs["x"]).toBeLessThan(0);
      expect(message).toContain(`at trial ${trial} (x = ${inputs["x"]})`);
    }
  });

  test.each([
    ["text", () => "five" as unknown as number, /returned "five", a string, for y at the estimates/],
    ["nothing", () => undefined as unknown as number, /returned nothing for y at the estimates/],
    ["an object without the measurand", () => ({ z: 1 }) as unknown as number, /returned z and no y at the estimates/],
    ["infinity", () => 1 / 0, /returned Infinity for y at the estimates/],
  ])("a model that returns %s is refused at the estimates", (_, evaluate, message) => {
    const broken = defineModel({
      id: "broken",
      title: "b",
      measurands: { y: quantity("y") },
      inputs: { x: quantity("x") },
      evaluate,
    });
    expect(() => propagate(broken, readStudy({ title: "t", model: "broken", inputs: { x: normal } }))).toThrow(message);
  });

  test("names that cannot be names are refused", () => {
    const named = (name: string) => () =>
      defineModel({
        id: "n",
        title: "n",
        measurands: { y: quantity("y") },
        inputs: { [name]: quantity("x") },
        evaluate: () => 1,
      });
    for (const name of ["__proto__x y", "1st", "a-b", "constructor", "a;b", ""])
      expect(named(name)).toThrow(InputError);
    expect(named("x_1")).not.toThrow();
  });
});
