import { describe, expect, test } from "vitest";
import { BLANK, type Draft } from "../../../../viewer/page/new-study/draft.ts";
import { draftOf } from "../../../../viewer/page/new-study/from-study.ts";
import { findingsOf } from "../../../../viewer/page/new-study/findings.ts";
import { lacksOf } from "../../../../viewer/page/new-study/lacks.ts";
import { classSpecification } from "../../../../viewer/page/new-study/class-tolerance.ts";
import { lacksOfRequests } from "../../../../viewer/page/new-study/request-lacks.ts";
import { BLANK_ROW, type Row } from "../../../../viewer/page/new-study/row.ts";
import { NO_SHAPE, shownRows, withShownRows, type TableShape } from "../../../../viewer/page/new-study/table-shape.ts";
import { readExample } from "../../../read-example.ts";
import { EXAMPLES, kinds } from "./kinds.ts";

const SUM: TableShape = { ...NO_SHAPE, declared: "additive" };
const good: Row = {
  ...BLANK_ROW,
  symbol: "a",
  unit: "K",
  how: "rectangular",
  fields: { estimate: "0", halfWidth: "0,1" },
};
const sum = (row: Partial<Row>): Draft => ({
  ...BLANK,
  title: "t",
  rows: [{ ...good, ...row }],
  results: [{ ...BLANK.results[0]!, unit: "K" }],
});
const told = (draft: Draft, shape = SUM): string[] =>
  lacksOf(draft, shape, kinds).map(({ place, words }) => `${place}: ${words}`);

describe("what the form finds missing by itself", () => {
  test("is nothing in a whole draft, and everything in a blank one", () => {
    expect(told(sum({}))).toEqual([]);
    expect(lacksOf(BLANK, SUM, kinds).map(({ place }) => place)).toEqual(["title", "rows", "results.result-1.unit"]);
  });

  test.each<[string, Partial<Row>, string]>([
    ["no symbol and no name", { symbol: " " }, "symbol: Type a symbol, or the quantity in words."],
    ["no unit", { unit: "" }, "unit: Type the unit; 1 for a number without a unit."],
    ["°C", { unit: "°C" }, "ofTemperature: Choose whether it is a difference of temperatures or a temperature."],
    ["no way of knowing", { how: "" }, "how: Choose how the value is known."],
    ["no value", { fields: { halfWidth: "1" } }, "estimate: Type the value."],
    ["no half-width", { fields: { estimate: "1" } }, "halfWidth: Type the half-width a."],
    [
      "a half-width of 0",
      { fields: { estimate: "1", halfWidth: "0" } },
      "halfWidth: Type a number greater than 0 as the half-width a.",
    ],
    [
      "a word",
      { fields: { estimate: "wide", halfWidth: "1" } },
      "estimate: “wide” is not a number. Type one such as 0.004 or 0,004.",
    ],
    [
      "a part of an estimate of 0",
      { fields: { estimate: "0,0", halfWidth: "±0.5 %" } },
      "halfWidth: “±0.5 %” is a part of the estimate, and the estimate is 0: type the uncertainty in the row’s unit.",
    ],
    [
      "a part where the row is in per cent",
      { unit: "%", fields: { estimate: "45", halfWidth: "1.5 %" } },
      "halfWidth: “1.5 %” is a part of the estimate, and the row is in % itself: type the figure alone if it is in %.",
    ],
    [
      "a part of 0 %",
      { fields: { estimate: "45", halfWidth: "0 %" } },
      "halfWidth: Type a number greater than 0 as the half-width a.",
    ],
    [
      "no coefficient",
      { sensitivity: "" },
      "sensitivity: Type the sensitivity coefficient: 1 if the quantity counts as it is.",
    ],
    [
      "no k",
      { how: "certificate", fields: { estimate: "0", expandedUncertainty: "1" } },
      "coverageFactor: Type the coverage factor k.",
    ],
    [
      "one indication",
      { how: "readings", fields: { values: "1,5" } },
      "values: Type at least two indications, or give a pooled standard deviation under “more”.",
    ],
    [
      "an indication that is none, counted from 1",
      { how: "readings", fields: { values: "1,5; 1,6; OVLD" } },
      "values: Number 3 of the indications, “OVLD”, cannot be read. Type numbers with semicolons or spaces between them.",
    ],
    [
      "limits the wrong way round",
      { how: "rectangular-limits", fields: { lower: "2", upper: "1" } },
      "upper: Type an upper limit greater than the lower one (2).",
    ],
    ["a mixture without parts", { how: "mixture", fields: {} }, "components: Type the parts of the mixture."],
  ])("is told of %s", (_, row, words) => {
    expect(told(sum(row))).toEqual([`inputs.row-1.${words}`]);
  });

  test("counts every cell of a row that only has a symbol", () => {
    expect(lacksOf(sum({ how: "certificate", fields: {} }), SUM, kinds).map(({ place }) => place)).toEqual([
      "inputs.row-1.estimate",
      "inputs.row-1.expandedUncertainty",
      "inputs.row-1.coverageFactor",
    ]);
  });

  test("names the row whose symbol another one has", () => {
    const draft = sum({});
    expect(told({ ...draft, rows: [...draft.rows, { ...good, key: "row-2" }] })).toEqual([
      "inputs.row-2.symbol: Row 1 has the symbol a too. Type another one.",
    ]);
  });

  test("a figure in K of a sum in °C is asked about, one in mK is a difference", () => {
    const celsius = { ...BLANK.results[0]!, unit: "°C", ofTemperature: "difference" } as const;
    const draft = (unit: string): Draft => ({ ...sum({ unit }), results: [celsius] });
    expect(told(draft("K"))).toEqual([expect.stringContaining("ofTemperature")]);
    expect(told(draft("mK"))).toEqual([]);
  });

  test.each(EXAMPLES)("is nothing in %s", (id) => {
    const study = readExample(id) as unknown as Readonly<Record<string, unknown>>;
    const draft = draftOf(study);
    const declared = draft.model === "additive" || draft.model === "equation" ? draft.model : null;
    const quantity = { symbol: "x", meaning: "x", unit: "1" };
    const inputs = Object.fromEntries(Object.keys(study["inputs"] as object).map((name) => [name, quantity]));
    // Whether a quantity is a difference was not asked of examples that are older than the question.
    const found = [...lacksOf(draft, { ...NO_SHAPE, declared, inputs }, kinds), ...lacksOfRequests(draft, kinds)];
    expect(found.filter(({ place }) => !/\.(ofTemperature|unit)$/.test(place))).toEqual([]);
  });

  test.each<[string, Partial<Draft>, string]>([
    [
      "a coefficient above 1",
      { correlations: [{ between: ["a", "b"], coefficient: "1,1", refersTo: "values", series: "", source: "" }] },
      "correlations.0.coefficient",
    ],
    [
      "an input with itself",
      { correlations: [{ between: ["a", "a"], coefficient: "1", refersTo: "values", series: "", source: "" }] },
      "correlations.0.between.1",
    ],
    [
      "a point without a place",
      { sweep: { quantity: "t", unit: "K", points: [{ at: "", changes: [] }] } },
      "sweep.points.0.at",
    ],
    ["no class", { conformity: [classOf("", "72")] }, "conformity.y.tolerance.parameters.class"],
    ["a class at no temperature", { conformity: [classOf("A", "")] }, "conformity.y.tolerance.parameters.temperature"],
    ["a class at a word", { conformity: [classOf("A", "hot")] }, "conformity.y.tolerance.parameters.temperature"],
    ["a word for p", { probability: "most" }, "coverage.probability"],
    ["no seed", { seed: " " }, "seed"],
    ["a flash point that is none", { bath: { flashPoint: "high" } }, "bath.flashPoint"],
  ])("is told of %s", (_, part, place) => {
    expect(lacksOfRequests({ ...BLANK, ...part }, kinds).map((lack) => lack.place)).toEqual([place]);
  });
});

/** A tolerance by class, as the form has it. */
function classOf(name: string, temperature: string): Draft["conformity"][number] {
  const specification = classSpecification({ class: name, temperature, element: "", nominal: "" });
  const none = { lower: "", upper: "", basis: "", guard: "", priorMean: "", priorDeviation: "", priorSource: "" };
  return { ...none, measurand: "y", specification };
}

describe("the status", () => {
  const problem = { place: "inputs.a.halfWidth", value: "1e-30", accepted: "a number that changes the estimate" };
  test("waits for the server before it is ready, and never is with a problem", () => {
    const draft = sum({});
    expect(findingsOf(draft, SUM, kinds, null)).toEqual({ lacks: [], checked: "waiting" });
    expect(findingsOf(draft, SUM, kinds, { problems: [], failure: null })).toEqual({ lacks: [], checked: "yes" });
    const { lacks } = findingsOf(draft, SUM, kinds, { problems: [problem], failure: null });
    expect(lacks).toEqual([
      { place: "inputs.row-1.halfWidth", words: "Got 1e-30; expected a number that changes the estimate." },
    ]);
  });

  test("tells of a row once, where the form and the server both find it wanting", () => {
    const draft = sum({ fields: { estimate: "0" } });
    const missing = {
      place: "inputs.a.halfWidth",
      value: "nothing",
      accepted: "a number: give estimate and halfWidth",
    };
    expect(findingsOf(draft, SUM, kinds, { problems: [missing], failure: null }).lacks).toHaveLength(1);
  });
});

describe("the rows of a model", () => {
  const shape: TableShape = {
    declared: null,
    inputs: { bathAxial: { symbol: "δt_ax", meaning: "vertical difference", unit: "°C", difference: true } },
    optional: new Set(),
    measurands: {},
  };
  const draft: Draft = {
    ...BLANK,
    model: "m",
    rows: [
      { ...good, key: "bathAxial" },
      { ...good, key: "other" },
    ],
  };

  test("carry the model's symbol and unit, and a unit of one's own is kept", () => {
    const [row] = shownRows(draft, shape);
    expect(row).toMatchObject({ symbol: "δt_ax", meaning: "vertical difference", unit: "°C" });
    const own = withShownRows(draft, shape, [{ ...row!, unit: "mK" }]);
    expect(own.rows[0]!.fields["unit"]).toBe("mK");
    expect(shownRows(own, shape)[0]!.unit).toBe("mK");
    expect(withShownRows(own, shape, [{ ...row!, unit: "°C" }]).rows[0]!.fields).not.toHaveProperty("unit");
    // What was typed for another model stays.
    expect(own.rows.map(({ key }) => key)).toEqual(["bathAxial", "other"]);
  });
});
