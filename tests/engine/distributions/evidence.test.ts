import { describe, expect, test } from "vitest";
import { defineModel, InputError, propagate, readStudy, type Evidence, type Problem } from "../../../engine/index.ts";

const model = defineModel({
  id: "one",
  title: "one",
  measurands: { y: { symbol: "y", meaning: "y", unit: "1" } },
  inputs: { a: { symbol: "a", meaning: "a", unit: "1" }, b: { symbol: "b", meaning: "b", unit: "1" } },
  evaluate: ({ a, b }) => a + b,
});
const evidence: Evidence = {
  method: "half the span of the worst window",
  files: [{ name: "log.csv", sha256: "0123456789abcdef".repeat(4) }],
  figures: [
    { name: "half-range", value: 0.25, unit: "K" },
    { name: "worst window from", value: "2026-03-02T08:00:00" },
  ],
};
const statement = { distribution: "rectangular", estimate: 0, halfWidth: 0.25 };
const study = (a: object) => ({
  title: "t",
  model: "one",
  inputs: { a, b: { distribution: "normal", estimate: 0, standardUncertainty: 1 } },
  trials: 20_000,
});

describe("evidence of a statement", () => {
  test("is copied to the record, and null if there is none", () => {
    const { inputs } = propagate(model, readStudy(study({ ...statement, evidence })));
    expect(inputs["a"]!.evidence).toEqual(evidence);
    expect(inputs["b"]!.evidence).toBeNull();
  });

  test("changes no figure", () => {
    const [without, cited] = [statement, { ...statement, evidence }].map(
      (a) => propagate(model, readStudy(study(a))).measurands,
    );
    expect(cited).toEqual(without);
  });

  test("belongs to every kind of statement", () => {
    const mixture = {
      distribution: "mixture",
      components: [{ weight: 1, statement: { ...statement, evidence } }],
      evidence,
    };
    expect(propagate(model, readStudy(study(mixture))).inputs["a"]!.evidence).toEqual(evidence);
  });

  test.each<[string, object, string, RegExp]>([
    ["no files", { files: [] }, "inputs.a.evidence.files", /a list of at least 1 values/],
    [
      "a digest that is none",
      { files: [{ name: "x", sha256: "abc" }] },
      "inputs.a.evidence.files.0.sha256",
      /SHA-256 digest of 64 hexadecimal digits/,
    ],
    [
      "a figure that is not finite",
      { figures: [{ name: "x", value: Number.NaN }] },
      "inputs.a.evidence.figures.0.value",
      /a finite number, or a text/,
    ],
    ["no method", { method: "" }, "inputs.a.evidence.method", /a text that is not empty/],
    ["a field nobody knows", { colour: 1 }, "inputs.a.evidence.colour", /nothing/],
    [
      "more than fits a record",
      { method: "x".repeat(501) },
      "inputs.a.evidence.method",
      /a text of at most 500 characters/,
    ],
  ])("with %s is refused at its place", (_, change, place, accepted) => {
    let problems: readonly Problem[] = [];
    try {
      readStudy(study({ ...statement, evidence: { ...evidence, ...change } }));
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      ({ problems } = error);
    }
    expect(problems.map((problem) => problem.place)).toEqual([place]);
    expect(problems[0]!.accepted).toMatch(accepted);
  });
});
