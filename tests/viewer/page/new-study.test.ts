import { readdirSync } from "node:fs";
import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readStudy } from "../../../engine/index.ts";
import { schemaText } from "../../../server/record/json-schema.ts";
import { BLANK, documentOf, draftOf, inputsAsked, type StudyDocument } from "../../../viewer/page/new-study/draft.ts";
import { isShown, kindsOf } from "../../../viewer/page/new-study/fields.ts";
import { byPlace, nearestPlace, problemWords } from "../../../viewer/page/new-study/places.ts";
import { readExample } from "../../read-example.ts";

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
  readdirSync(new URL(`../../../examples/${group}`, import.meta.url)).map(
    (file) => `${group}/${file.replace(/\.json$/, "")}`,
  ),
);

describe("a draft", () => {
  test.each(examples)("of %s gives the same study back", (id) => {
    const example = readExample(id) as unknown as StudyDocument & { inputs: object };
    const draft = draftOf(example);
    // Through its text, as the browser keeps it.
    const kept = JSON.parse(JSON.stringify(draft)) as typeof draft;
    expect(readStudy(documentOf(kept, Object.keys(example.inputs), kinds))).toEqual(
      readStudy({ ...example, $schema: undefined }),
    );
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

  test("asks for the optional inputs that the study states, so that none is lost, and for no other", () => {
    const declared = { inputs: { x: "must" }, optionalInputs: { y: "may", z: "may" } };
    const draft = draftOf({ inputs: { x: {}, y: { distribution: "constant", value: 0 } } });
    expect(inputsAsked(declared, draft)).toEqual({ x: "must", y: "may" });
    expect(documentOf(draft, Object.keys(inputsAsked(declared, draft)), kinds)["inputs"]).toHaveProperty("y");
    expect(inputsAsked(declared, BLANK)).toEqual({ x: "must" });
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

  test("is told in words that do not repeat the place", () => {
    const problem = { place: "inputs.axial.values.3", value: '"x"', accepted: "a finite number" };
    expect(problemWords(problem, "inputs.axial")).toBe('values.3: got "x"; expected a finite number');
    expect(problemWords({ ...problem, value: "nothing" }, problem.place)).toBe("needed: a finite number");
    expect([...byPlace([problem, { ...problem, place: "inputs.axial" }], known).keys()]).toEqual(["inputs.axial"]);
  });
});
