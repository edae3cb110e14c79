import { describe, expect, test } from "vitest";
import { evaluatorOf, plainEvaluatorOf } from "../../../engine/evaluator/evaluator.ts";
import { defineModel, type Model } from "../../../engine/index.ts";
import type { Program } from "../../../engine/internal.ts";
import { PLAIN_BLOCKS as BLOCKS, provideProgram } from "../../../engine/native/programs.ts";
import { withColumns } from "../../../engine/random/block-generator.ts";
import { BLOCK_TRIALS } from "../../../engine/random/block.ts";

const PLAIN_BLOCKS = BLOCKS.atHand;

const quantity = (symbol: string) => ({ symbol, meaning: symbol, unit: "1" });

/** y = a + 1 for a below 3, and none beyond; how often the plain function was called. */
function counting(): { model: Model; calls: () => number } {
  let calls = 0;
  const model = defineModel({
    id: "counting",
    title: "counting",
    inputs: { a: quantity("a") },
    measurands: { y: quantity("y") },
    evaluate: ({ a }) => {
      calls += 1;
      return a < 3 ? a + 1 : Number.NaN;
    },
  }) as Model;
  return { model, calls: () => calls };
}

const a = { op: "input", name: "a", otherwise: null } as const;
const program = (step: Program["body"][number]): Program => ({
  locals: 1,
  body: [step],
  outputs: { y: { op: "add", left: a, right: { op: "number", value: 1 } } },
  tables: [],
  functions: [],
});
const none: Program["body"][number] = { step: "set", local: 0, value: a };

/** Blocks of the values that `at` gives. @returns outputs of the last, and what the evaluator said of it */
function run(model: Model, blocks: number, count: number, at: (trial: number) => number): [Float64Array, number] {
  const evaluate = evaluatorOf(model);
  const out = new Float64Array(count);
  let failed = -1;
  withColumns(1, (columns) => {
    for (let t = 0; t < count; t++) columns[0]![t] = at(t);
    for (let block = 0; block < blocks; block++) failed = evaluate(columns, [out], count);
  });
  return [out, failed];
}

describe("an evaluator with a program", () => {
  test("goes over to it after some blocks, for good, with the same values", () => {
    const { model, calls } = counting();
    provideProgram(model.evaluate, () => program(none));
    run(model, PLAIN_BLOCKS - 1, 3, () => 1);
    expect(calls()).toBe(3 * (PLAIN_BLOCKS - 1));
    // One block by both paths.
    const [out, failed] = run(model, 5, BLOCK_TRIALS, (t) => t / BLOCK_TRIALS);
    expect(calls()).toBe(3 * (PLAIN_BLOCKS - 1) + BLOCK_TRIALS);
    expect(failed).toBe(-1);
    expect([...out]).toEqual(Array.from({ length: BLOCK_TRIALS }, (_, t) => t / BLOCK_TRIALS + 1));
    expect([...run(model, 1, 7, (t) => t / 4)[0]]).toEqual([1, 1.25, 1.5, 1.75, 2, 2.25, 2.5]);
  });

  test("leaves a block with a trial it does not take to the plain path, and itself if there are many", () => {
    const { model, calls } = counting();
    const beyond = { op: "gt", left: a, right: { op: "number", value: 2 } } as const;
    provideProgram(model.evaluate, () => program({ step: "if", test: beyond, yes: [{ step: "giveUp" }], no: [] }));
    run(model, PLAIN_BLOCKS + 1, 1, () => 0);
    const before = calls();
    const [out, failed] = run(model, 1, 9, (t) => t / 3);
    expect([failed, calls() - before]).toEqual([-1, 9]);
    expect([...out]).toEqual([...out.keys()].map((t) => t / 3 + 1));
    // Undefined from the seventh trial on.
    expect(run(model, 1, 9, (t) => t / 2)[1]).toBe(6);
    run(model, 40, 9, (t) => t / 3);
    const given = calls();
    run(model, 10, 9, () => 0);
    expect(calls() - given).toBe(90);
  });

  test("does not take one that gives other values", () => {
    const { model, calls } = counting();
    provideProgram(model.evaluate, () => ({ ...program(none), outputs: { y: a } }));
    const [out] = run(model, PLAIN_BLOCKS + 5, 2, (t) => t);
    expect([...out]).toEqual([1, 2]);
    expect(calls()).toBe(2 * (PLAIN_BLOCKS + 5));
  });

  test("keeps the plain path if the program cannot be made", () => {
    const { model, calls } = counting();
    const unreadable = (): never => {
      throw new RangeError("Maximum call stack size exceeded");
    };
    provideProgram(model.evaluate, unreadable, "fromSource");
    run(model, BLOCKS.fromSource + 5, 2, () => 1);
    expect(calls()).toBe(2 * (BLOCKS.fromSource + 5));
  });

  test("keeps the plain path where there is no program, or none for these inputs", () => {
    for (const made of [
      null,
      { ...program(none), outputs: { other: a } },
      { ...program(none), outputs: { y: { ...a, name: "b" } } },
    ]) {
      const { model, calls } = counting();
      provideProgram(model.evaluate, () => made);
      run(model, PLAIN_BLOCKS + 5, 2, () => 1);
      expect(calls()).toBe(2 * (PLAIN_BLOCKS + 5));
    }
    const { model } = counting();
    const out = new Float64Array(1);
    expect(plainEvaluatorOf(model)([Float64Array.of(1)], [out], 1)).toBe(-1);
    expect(out[0]).toBe(2);
  });
});
