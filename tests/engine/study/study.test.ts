import { describe, expect, test } from "vitest";
import * as z from "zod";
import { readFileSync } from "node:fs";
import { InputError, prepare, readStudy, type Problem } from "../../../engine/index.ts";
import { studySchema } from "../../../engine/internal.ts";
import { modelOf, readExample } from "../../read-example.ts";

const x = { distribution: "normal", estimate: 0, standardUncertainty: 1 };
const base = { title: "t", model: "additive", parameters: { coefficients: { a: 1 } }, inputs: { a: x } };

function problemsOf(change: object): readonly Problem[] {
  try {
    const study = readStudy({ ...base, ...change });
    prepare(modelOf(study), study);
  } catch (error) {
    if (error instanceof InputError) return error.problems;
    throw error;
  }
  return [];
}

describe("the error for a study that cannot be used names the place, the value and what is accepted", () => {
  const input = (a: object) => ({ inputs: { a } });
  test.each<[string, object, Problem]>([
    ["no title", { title: undefined }, { place: "title", value: "nothing", accepted: "a text" }],
    [
      "a field nobody knows",
      { colour: "red" },
      { place: "colour", value: '"red"', accepted: "nothing: there is no such field here" },
    ],
    [
      "a distribution nobody knows",
      input({ distribution: "gauss" }),
      { place: "inputs.a.distribution", value: '"gauss"', accepted: "one of" },
    ],
    [
      "no distribution",
      input({ estimate: 1 }),
      { place: "inputs.a.distribution", value: "nothing", accepted: "one of" },
    ],
    [
      "a negative half-width",
      input({ distribution: "rectangular", estimate: 0, halfWidth: -1 }),
      { place: "inputs.a.halfWidth", value: "-1", accepted: "a number greater than 0" },
    ],
    [
      "limits reversed",
      input({ distribution: "rectangular", lower: 2, upper: 1 }),
      { place: "inputs.a.lower", value: "2", accepted: "a number less than upper (1)" },
    ],
    [
      "limits equal",
      input({ distribution: "arcsine", lower: 1, upper: 1 }),
      { place: "inputs.a.lower", value: "1", accepted: "a number less than upper (1)" },
    ],
    [
      "half a pair of limits",
      input({ distribution: "triangular", lower: 1 }),
      { place: "inputs.a.upper", value: "nothing", accepted: "a number" },
    ],
    [
      "two ways of stating at once",
      input({ distribution: "normal", estimate: 0, standardUncertainty: 1, coverageFactor: 2 }),
      { place: "inputs.a.coverageFactor", value: "2", accepted: "nothing, since standardUncertainty is given" },
    ],
    [
      "U without k",
      input({ distribution: "normal", estimate: 0, expandedUncertainty: 1 }),
      { place: "inputs.a.coverageFactor", value: "nothing", accepted: "exactly one of" },
    ],
    [
      "a t without degrees of freedom",
      input({ distribution: "t", estimate: 0, standardUncertainty: 1 }),
      { place: "inputs.a.degreesOfFreedom", value: "nothing", accepted: "a finite number" },
    ],
    [
      "one reading",
      input({ distribution: "readings", values: [1] }),
      { place: "inputs.a.values", value: "[1]", accepted: "at least 2 indications" },
    ],
    [
      "a reading that is text",
      input({ distribution: "readings", values: [1, "2"] }),
      { place: "inputs.a.values.1", value: '"2"', accepted: "a finite number" },
    ],
    [
      "readings that are all equal",
      input({ distribution: "readings", values: [1, 1, 1] }),
      { place: "inputs.a.values", value: "[1,1,1]", accepted: "indications that are not all equal" },
    ],
    [
      "an infinite estimate",
      input({ distribution: "normal", estimate: Infinity, standardUncertainty: 1 }),
      { place: "inputs.a.estimate", value: "Infinity", accepted: "a finite number" },
    ],
    ["a missing input", { inputs: {} }, { place: "inputs.a", value: "nothing", accepted: "a distribution for a" }],
    [
      "an unknown input",
      { inputs: { a: x, b: x } },
      { place: "inputs.b", value: '"normal"', accepted: "nothing: model additive has no such input" },
    ],
    [
      "p and k at once",
      { coverage: { probability: 0.95, factor: 2 } },
      { place: "coverage", value: "{", accepted: "exactly one of probability" },
    ],
    [
      "p of 1",
      { coverage: { probability: 1 } },
      { place: "coverage.probability", value: "1", accepted: "a number less than 1" },
    ],
    ["three digits", { significantDigits: 3 }, { place: "significantDigits", value: "3", accepted: "1" }],
    ["too few trials", { trials: 10 }, { place: "trials", value: "10", accepted: "at least 1000" }],
    ["trials in words", { trials: "many" }, { place: "trials", value: '"many"', accepted: '"adaptive"' }],
    [
      "too few trials for an adaptive run",
      { trials: "adaptive", maximumTrials: 20_000, coverage: { probability: 0.9999 } },
      { place: "maximumTrials", value: "20000", accepted: "at least two batches of 1000000 trials" },
    ],
    [
      "a coefficient that is text",
      { parameters: { coefficients: { a: "1" } } },
      { place: "parameters.coefficients.a", value: '"1"', accepted: "a finite number" },
    ],
    [
      "a parameter nobody knows",
      { parameters: { coefficients: { a: 1 }, factor: 2 } },
      { place: "parameters.factor", value: "2", accepted: "one of" },
    ],
  ])("%s", (_, change, expected) => {
    const problems = problemsOf(change);
    const found = problems.find(({ place }) => place === expected.place);
    expect(found, JSON.stringify(problems)).toBeDefined();
    expect(found!.value).toContain(expected.value);
    expect(found!.accepted).toContain(expected.accepted);
  });

  test.each<[string, object, string]>([
    ["a text", { title: "half \ud83d of a pair" }, "title"],
    ["the text of an input", { inputs: { a: { ...x, source: "\udf21 first" } } }, "inputs.a.source"],
    ["a name", { inputs: { "a\ud800": x } }, "inputs.a\ud800"],
  ])("half of a surrogate pair in %s, which no digest could be made of", (_, change, place) => {
    expect(problemsOf(change)).toContainEqual(
      expect.objectContaining({ place, accepted: expect.stringContaining("without half of a surrogate pair") }),
    );
  });

  test("a whole pair is a letter like any other", () => {
    expect(problemsOf({ title: "\ud83c\udf21" })).toEqual([]);
  });

  test("all problems are reported at once", () => {
    expect(
      problemsOf({ title: "", seed: "", inputs: { a: { distribution: "rectangular", estimate: 0, halfWidth: 0 } } }),
    ).toHaveLength(3);
  });

  test("a document nested without end is refused, not followed", () => {
    let mixture: object = x;
    for (let i = 0; i < 5000; i++)
      mixture = { distribution: "mixture", components: [{ weight: 1, statement: mixture }] };
    expect(() => readStudy({ ...base, inputs: { a: mixture } })).toThrow(/nested at most 100 levels deep/);
  });

  test.each([null, 3, "study", [], undefined])("%j is no study", (document) => {
    expect(() => readStudy(document)).toThrow(InputError);
  });
});

test("every study of the scenario and of the standards can be read", () => {
  for (const id of [
    "harrowfen/freezer-minus-40",
    "harrowfen/cold-store-4",
    "harrowfen/pasteuriser-72",
    "harrowfen/steriliser-134",
    "published/mass-calibration",
    "published/end-gauge",
  ]) {
    expect(problemsOf(readExample(id))).toEqual([]);
  }
});

test("the published JSON Schema is the one the definition generates", () => {
  const published = JSON.parse(readFileSync(new URL("../../../examples/study.schema.json", import.meta.url), "utf8"));
  expect(published).toEqual({ title: "Trialband study", ...z.toJSONSchema(studySchema, { io: "input" }) });
});
