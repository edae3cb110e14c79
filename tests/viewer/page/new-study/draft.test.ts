import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readStudy } from "../../../../engine/index.ts";
import {
  BLANK,
  isDraft,
  keptAsDraft,
  rowOf,
  withParameter,
  withRow,
  withoutRow,
  type Draft,
  type StudyDocument,
} from "../../../../viewer/page/new-study/draft.ts";
import { isShown } from "../../../../viewer/page/new-study/fields.ts";
import { draftOf } from "../../../../viewer/page/new-study/from-study.ts";
import { BLANK_ROW, type Row } from "../../../../viewer/page/new-study/row.ts";
import { documentOf, parametersOf } from "../../../../viewer/page/new-study/to-study.ts";
import { readExample } from "../../../read-example.ts";
import { EXAMPLES, kinds } from "./kinds.ts";

const row = (key: string, how: string, fields: Row["fields"], more: Partial<Row> = {}): Row => ({
  ...BLANK_ROW,
  sensitivity: "",
  key,
  how,
  fields,
  ...more,
});
const namesIn = (study: StudyDocument): string[] => [
  ...Object.keys((study["inputs"] ?? {}) as object),
  ...Object.keys((study["negligible"] ?? {}) as object),
];

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

describe("a draft", () => {
  test.each(EXAMPLES)("of %s gives the same study back", (id) => {
    const example = readExample(id) as unknown as StudyDocument;
    // Through its text, as the browser keeps it.
    const kept = keptAsDraft(JSON.parse(JSON.stringify(draftOf(example))))!;
    const trials = example["trials"] ?? "adaptive";
    expect(readStudy(documentOf(kept, namesIn(example), kinds))).toEqual(
      readStudy({ ...example, trials, $schema: undefined }),
    );
  });

  const halfWidth = (text: string): unknown =>
    (
      documentOf(
        { ...BLANK, model: "m", rows: [row("x", "rectangular", { halfWidth: text, estimate: " " })] },
        ["x"],
        kinds,
      )["inputs"] as { x: { halfWidth?: unknown } }
    ).x.halfWidth;

  test.each<[string, unknown]>([
    ["0.004", 0.004],
    [" −4e-3 ", -0.004],
    ["20\u202f000", 20_000],
    ["20 000", 20_000],
    [".5", 0.5],
    ["0,004", 0.004],
    ["−2,5e-3", -0.0025],
    // One mark is a decimal mark: a comma of thousands is none.
    ["1,000", 1],
    ["1,000.5", "1,000.5"],
    ["1,000,000", "1,000,000"],
    ["wide", "wide"],
    ["0x10", "0x10"],
    ["Infinity", "Infinity"],
    ["1e999", "1e999"],
  ])("takes %j for %j", (text, value) => {
    expect(halfWidth(text)).toEqual(value);
  });

  test.each<[string, unknown[]]>([
    ["72.0059 72.0078", [72.0059, 72.0078]],
    ["72,0059; 72,0078;", [72.0059, 72.0078]],
    ["72,0059\n72,0078\t72,0054", [72.0059, 72.0078, 72.0054]],
    ["72.0059, 72.0078, 72.0054", [72.0059, 72.0078, 72.0054]],
    ["72.0059,72.0078", [72.0059, 72.0078]],
    ["72,0059 , 72,0078", [72.0059, 72.0078]],
    ["1,2,3", ["1,2,3"]],
    ["72.0059; OVLD", [72.0059, "OVLD"]],
  ])("takes the indications %j for %j", (text, list) => {
    const { inputs } = documentOf(
      { ...BLANK, model: "m", rows: [row("x", "readings", { values: text })] },
      ["x"],
      kinds,
    ) as unknown as { inputs: { x: { values: unknown } } };
    expect(inputs.x.values).toEqual(list);
  });

  test("leaves out what is not filled in and what belongs to another kind or model", () => {
    const draft = {
      ...BLANK,
      model: "m",
      rows: [
        row("x", "rectangular", { estimate: "1", halfWidth: " ", coverageFactor: "2", lower: "3" }),
        row("y", "", {}),
        row("gone", "constant", { value: "1" }),
      ],
    };
    expect(documentOf(draft, ["x", "y"], kinds)["inputs"]).toEqual({ x: { distribution: "rectangular", estimate: 1 } });
  });

  test("an optional input is stated, or left out with its reason, or left out: a reason beside a statement is dropped", () => {
    const negligible = { y: "not of this bath", z: " Four wires. ", gone: "another model" };
    const draft = draftOf({ model: "m", inputs: { x: {}, y: { distribution: "constant", value: 0 } }, negligible });
    const document = documentOf(draft, ["x", "y", "z", "w"], kinds);
    expect(document["inputs"]).toEqual({ y: { distribution: "constant", value: 0 } });
    expect(document["negligible"]).toEqual({ z: "Four wires." });
    expect(documentOf({ ...BLANK, model: "m" }, ["x", "y"], kinds)).not.toHaveProperty("negligible");
  });

  const filledIn: Draft = { ...BLANK, title: " Bath ", model: "m", rows: [row("x", "constant", { value: "1" })] };

  test("is the whole study that its fields state, and nothing more", () => {
    const usual = { coverage: { probability: 0.95 }, significantDigits: 2, trials: "adaptive", seed: "1" };
    const sum = { coefficients: {}, measurand: { symbol: "y" } };
    expect(documentOf(BLANK, [], kinds)).toEqual({
      title: "",
      model: "additive",
      parameters: sum,
      inputs: {},
      ...usual,
    });
    const full: Draft = {
      ...filledIn,
      laboratory: " Lab ",
      notes: "n",
      parameters: { points: "−40; 4,5", name: "a word", fit: "yes", one: "2,5", number: '"8"', empty: " " },
      correlations: [
        { between: ["x", "y"], coefficient: "−0,5", refersTo: "values", series: "", source: "" },
        { between: ["x", "z"], coefficient: "a half", refersTo: "ranks", series: "separate", source: " log 3 " },
      ],
      custom: "factor",
      factor: "2,0",
      interval: "shortest",
      significantDigits: "1",
      trials: "count",
      count: "20 000",
      maximumTrials: "5",
      undefinedTrials: "leave-out",
      generator: "mt19937",
      sensitivity: "",
      bath: { fluid: "water", setTemperature: "72", usableRange: "5; 90", flashPoint: " " },
      rest: { other: 3 },
    };
    expect(documentOf(full, ["x"], kinds)).toEqual({
      title: "Bath",
      laboratory: "Lab",
      notes: "n",
      model: "m",
      parameters: { points: [-40, 4.5], name: "a word", fit: true, one: 2.5, number: "8" },
      inputs: { x: { distribution: "constant", value: 1 } },
      correlations: [
        { between: ["x", "y"], coefficient: -0.5 },
        { between: ["x", "z"], coefficient: "a half", refersTo: "ranks", series: "separate", source: "log 3" },
      ],
      coverage: { factor: 2, interval: "shortest" },
      significantDigits: 1,
      // A fixed number of trials needs no largest one.
      trials: 20_000,
      undefinedTrials: "leave-out",
      generator: "mt19937",
      sensitivity: {},
      bath: { fluid: "water", setTemperature: 72, usableRange: [5, 90] },
      seed: "1",
      other: 3,
    });
  });

  test("changes one row or one parameter, and leaves the draft before as it was", () => {
    const before = JSON.stringify(filledIn);
    const other = row("y", "standard", { estimate: "0" });
    expect(withRow(filledIn, other).rows).toEqual([filledIn.rows[0], other]);
    expect(rowOf(withRow(filledIn, { ...other, key: "x" }), "x").how).toBe("standard");
    const given = withParameter(withParameter(filledIn, "a", "{"), "b", "2");
    expect(parametersOf(given)).toEqual({ a: "{", b: 2 });
    expect(parametersOf(withParameter(given, "a", ""))).toEqual({ b: 2 });
    expect(JSON.stringify(filledIn)).toBe(before);
  });

  test("without a row has no correlation of it and no change of it over a range", () => {
    const draft: Draft = {
      ...BLANK,
      rows: [row("a", "constant", {}), row("b", "constant", {})],
      correlations: [{ between: ["a", "b"], coefficient: "1", refersTo: "values", series: "", source: "" }],
      sweep: {
        quantity: "t",
        unit: "K",
        points: [{ at: "1", changes: [{ key: "a", how: "", fields: {}, rest: {} }] }],
      },
    };
    const without = withoutRow(draft, "a");
    expect(without.rows.map(({ key }) => key)).toEqual(["b"]);
    expect(without.correlations).toEqual([]);
    expect(without.sweep!.points).toEqual([{ at: "1", changes: [] }]);
  });

  test("that an earlier version of the page kept has its inputs in rows", () => {
    const draft = keptAsDraft({
      title: "Old",
      model: "m",
      inputs: { x: { distribution: "rectangular", fields: { halfWidth: "1" } } },
      negligible: { y: "small" },
    })!;
    expect(draft).toMatchObject({ title: "Old", seed: "1", rows: [{ key: "x", how: "rectangular" }] });
    const sum = keptAsDraft({
      model: "additive",
      parameters: { coefficients: '{"a": -0.5, "b": 2}', terms: '{"a": {"symbol": "δt", "unit": "K"}}' },
      inputs: { a: { distribution: "normal", fields: { estimate: "1", expandedUncertainty: "1" } } },
    })!;
    expect(sum.rows.map(({ key, symbol, unit, sensitivity, how }) => [key, symbol, unit, sensitivity, how])).toEqual([
      ["a", "δt", "K", "-0.5", "certificate"],
      ["b", "", "", "2", ""],
    ]);
    expect(keptAsDraft([])).toBe(null);
    expect(keptAsDraft("text")).toBe(null);
  });

  test("is told from a study, which may have any of its fields but those of the form itself", () => {
    expect(isDraft(filledIn)).toBe(true);
    expect(isDraft(documentOf(filledIn, ["x"], kinds))).toBe(false);
  });

  test("carries any finite number, bit for bit", () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        const draft = draftOf({ model: "m", inputs: { x: { distribution: "constant", value } } });
        // −0 and 0 are one value to a study.
        return (documentOf(draft, ["x"], kinds)["inputs"] as { x: { value: number } }).x.value === value;
      }),
      { seed: 7, numRuns: 500 },
    );
  });
});
