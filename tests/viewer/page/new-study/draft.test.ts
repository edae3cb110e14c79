import { readdirSync } from "node:fs";
import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readStudy } from "../../../../engine/index.ts";
import { schemaText } from "../../../../server/record/json-schema.ts";
import {
  BLANK,
  documentOf,
  draftOf,
  isDraft,
  parametersOf,
  withInput,
  withParameter,
  type Draft,
  type StudyDocument,
} from "../../../../viewer/page/new-study/draft.ts";
import { isShown, kindsOf } from "../../../../viewer/page/new-study/fields.ts";
import { byPlace, isTold, nearestPlace, problemWords } from "../../../../viewer/page/new-study/places.ts";
import { readExample } from "../../../read-example.ts";

const kinds = kindsOf(JSON.parse(schemaText()));

describe("the fields of a statement", () => {
  test("are those of the schema, what must be given first", () => {
    const normal = kinds.find(({ name }) => name === "normal")!;
    expect(normal.fields[0]).toMatchObject({
      name: "estimate",
      shape: "number",
      required: true,
      help: "Best estimate",
    });
    expect(normal.fields.map(({ name }) => name)).toContain("coverageProbability");
    expect(kinds.find(({ name }) => name === "readings")!.fields[0]).toMatchObject({
      name: "values",
      shape: "numbers",
    });
    expect(kinds.find(({ name }) => name === "mixture")!.fields[0]).toMatchObject({
      name: "components",
      shape: "json",
    });
  });

  test("have a control wherever one must be given", () => {
    for (const { name, fields } of kinds)
      expect(
        fields.filter((field) => field.required && !isShown(field)),
        name,
      ).toEqual([]);
    expect(kinds.length).toBeGreaterThanOrEqual(22);
  });
});

const examples = ["harrowfen", "published", "verdicts"].flatMap((group) =>
  readdirSync(new URL(`../../../../examples/${group}`, import.meta.url)).map(
    (file) => `${group}/${file.replace(/\.json$/, "")}`,
  ),
);

describe("a draft", () => {
  test.each(examples)("of %s gives the same study back", (id) => {
    const example = readExample(id) as unknown as StudyDocument & { inputs: object };
    const draft = draftOf(example);
    // Through its text, as the browser keeps it.
    const kept = JSON.parse(JSON.stringify(draft)) as typeof draft;
    expect(
      readStudy(documentOf(kept, [...Object.keys(example.inputs), ...Object.keys(example["negligible"] ?? {})], kinds)),
    ).toEqual(readStudy({ ...example, $schema: undefined }));
  });

  const inputs = (text: string): unknown =>
    (
      documentOf(
        { ...BLANK, inputs: { x: { distribution: "rectangular", fields: { halfWidth: text, estimate: " " } } } },
        ["x"],
        kinds,
      )["inputs"] as { x: { halfWidth?: unknown } }
    ).x.halfWidth;

  test.each<[string, unknown]>([
    ["0.004", 0.004],
    [" −4e-3 ", -0.004],
    ["20\u202f000", 20_000],
    [".5", 0.5],
    // A decimal comma and a comma of thousands look alike: neither is guessed at.
    ["0,004", "0,004"],
    ["1,000", "1,000"],
    ["wide", "wide"],
    ["0x10", "0x10"],
    ["Infinity", "Infinity"],
    ["1e999", "1e999"],
  ])("takes %j for %j", (text, value) => {
    expect(inputs(text)).toEqual(value);
  });

  test("leaves out what is not filled in and what belongs to another kind or model", () => {
    const draft = {
      ...BLANK,
      inputs: {
        x: { distribution: "rectangular", fields: { estimate: "1", halfWidth: " ", coverageFactor: "2" } },
        y: { distribution: "", fields: {} },
        gone: { distribution: "constant", fields: { value: "1" } },
      },
    };
    expect(documentOf(draft, ["x", "y"], kinds)["inputs"]).toEqual({ x: { distribution: "rectangular", estimate: 1 } });
  });

  test("an optional input is stated, or left out with its reason, or left out: a reason beside a statement is dropped", () => {
    const negligible = { y: "not of this bath", z: " Four wires. ", gone: "another model" };
    const draft = draftOf({ inputs: { x: {}, y: { distribution: "constant", value: 0 } }, negligible });
    expect(draft.negligible).toEqual(negligible);
    const document = documentOf(draft, ["x", "y", "z", "w"], kinds);
    expect(document["inputs"]).toEqual({ y: { distribution: "constant", value: 0 } });
    expect(document["negligible"]).toEqual({ z: "Four wires." });
    expect(documentOf(BLANK, ["x", "y"], kinds)).not.toHaveProperty("negligible");
  });

  const filledIn: Draft = {
    ...BLANK,
    title: " Bath ",
    model: "m",
    inputs: { x: { distribution: "constant", fields: { value: "1" } } },
  };

  test("is the whole study that its fields state, and nothing more", () => {
    const usual = { coverage: { probability: 0.95 }, significantDigits: 2, trials: "adaptive", seed: "1" };
    expect(documentOf(BLANK, [], kinds)).toEqual({ title: "", model: "", inputs: {}, ...usual });
    const full: Draft = {
      ...filledIn,
      laboratory: " Lab ",
      notes: "n",
      parameters: { points: "[1, 2]", name: "left as text", empty: " " },
      correlations: [
        { between: ["x", "y"], coefficient: "−0.5", refersTo: "values", source: "" },
        { between: ["x", "z"], coefficient: "a half", refersTo: "ranks", source: " log 3 " },
      ],
      custom: "factor",
      factor: "2.0",
      interval: "shortest",
      significantDigits: "1",
      trials: "count",
      count: "20 000",
      maximumTrials: "5",
      rest: { conformity: { upper: 3 } },
    };
    expect(documentOf(full, ["x"], kinds)).toEqual({
      title: "Bath",
      laboratory: "Lab",
      notes: "n",
      model: "m",
      parameters: { points: [1, 2], name: "left as text" },
      inputs: { x: { distribution: "constant", value: 1 } },
      correlations: [
        { between: ["x", "y"], coefficient: -0.5 },
        { between: ["x", "z"], coefficient: "a half", refersTo: "ranks", source: "log 3" },
      ],
      coverage: { factor: 2, interval: "shortest" },
      significantDigits: 1,
      // A fixed number of trials needs no largest one.
      trials: 20_000,
      seed: "1",
      conformity: { upper: 3 },
    });
  });

  test("changes one input or one parameter, and leaves the draft before as it was", () => {
    const before = JSON.stringify(filledIn);
    const stated = { distribution: "normal", fields: { estimate: "0" } };
    expect(withInput(filledIn, "y", stated)).toEqual({
      ...filledIn,
      inputs: { x: filledIn.inputs["x"], y: stated },
    });
    expect(withInput(filledIn, "x", stated).inputs).toEqual({ x: stated });
    const given = withParameter(withParameter(filledIn, "a", "{"), "b", "2");
    expect(parametersOf(given)).toEqual({ a: "{", b: 2 });
    expect(parametersOf(withParameter(given, "a", ""))).toEqual({ b: 2 });
    expect(JSON.stringify(filledIn)).toBe(before);
  });

  test("is told from a study, which may have any of its fields but those of the form itself", () => {
    expect(isDraft(filledIn)).toBe(true);
    expect(isDraft(documentOf(filledIn, ["x"], kinds))).toBe(false);
  });

  test("carries any finite number to the bit", () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        const { inputs: stated } = draftOf({ inputs: { x: { distribution: "constant", value } } });
        // −0 and 0 are one value to a study.
        return (
          (documentOf({ ...BLANK, inputs: stated }, ["x"], kinds)["inputs"] as { x: { value: number } }).x.value ===
          value
        );
      }),
      { seed: 7, numRuns: 500 },
    );
  });
});

describe("a problem", () => {
  const known = new Set(["inputs.axial", "inputs.axial.halfWidth", "coverage", "title"]);
  test.each([
    ["inputs.axial.halfWidth", "inputs.axial.halfWidth"],
    ["inputs.axial.values.3", "inputs.axial"],
    ["coverage.factor", "coverage"],
    ["inputs.other", ""],
    ["", ""],
  ])("at %j is told at %j", (place, at) => {
    expect(nearestPlace(place, known)).toBe(at);
  });

  test.each([
    ["inputs.axial", ["inputs.axial"], true],
    ["inputs.axial.halfWidth", ["title", "inputs.axial"], true],
    ["inputs.axialTwo", ["inputs.axial"], false],
    ["inputs.axial", ["inputs.axial.halfWidth"], false],
    ["title", [], false],
  ] as const)("at %j is shown once the reader has been at %j: %j", (place, touched, told) => {
    expect(isTold(place, new Set(touched))).toBe(told);
  });

  test("is told in words that do not repeat the place", () => {
    const problem = { place: "inputs.axial.values.3", value: '"x"', accepted: "a finite number" };
    expect(problemWords(problem, "inputs.axial")).toBe('values.3: got "x"; expected a finite number');
    expect(problemWords({ ...problem, value: "nothing" }, problem.place)).toBe("needed: a finite number");
    expect([...byPlace([problem, { ...problem, place: "inputs.axial" }], known).keys()]).toEqual(["inputs.axial"]);
  });
});
