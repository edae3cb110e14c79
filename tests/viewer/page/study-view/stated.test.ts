// What a study states, before it is run: symbols, units, tolerances and the points of a range.
import { describe, expect, test } from "vitest";
import type { Model } from "../../../../engine/index.ts";
import { models } from "../../../../models/index.ts";
import {
  correlationTable,
  inputTable,
  sweepTable,
  toleranceTable,
  type Known,
} from "../../../../viewer/page/study-view/stated.ts";
import { labelText } from "../../../../viewer/present/pictures/label.ts";
import type { Table } from "../../../../viewer/present/tables/table.ts";
import { readExample } from "../../../read-example.ts";

const bath = models.find(({ id }) => id === "bath-comparison") as Model;
const known: Known = {
  model: {
    ...bath,
    equation: bath.equation ?? null,
    cautions: [],
    optionalInputs: bath.optionalInputs ?? {},
    calibrationCurve: null,
  },
  // As the schema of a study declares them.
  unitsOf: () => ({ values: "input", estimate: "input", halfWidth: "input", value: "input", degreesOfFreedom: "one" }),
};
const rowsOf = (table: Table | null): (readonly string[])[] =>
  (table?.rows ?? []).map(({ head, cells }) => [
    labelText(head),
    ...cells.map((cell) => (typeof cell === "string" ? cell : cell.text).replaceAll("\u00a0", " ")),
  ]);

describe("a study as it stands before its run", () => {
  const range = readExample("harrowfen/range");

  test("has its inputs by symbol, with units and sources", () => {
    const rows = rowsOf(inputTable(range, known));
    const inputs = range["inputs"] as Record<string, { readonly halfWidth?: number; readonly source?: string }>;
    expect(rows).toHaveLength(Object.keys(inputs).length);
    const axial = rows.find(([symbol]) => symbol === bath.inputs["bathAxial"]!.symbol)!;
    expect(axial.slice(1)).toEqual([
      "rectangular",
      `estimate 0 °C, half-width ${inputs["bathAxial"]!.halfWidth} °C`,
      inputs["bathAxial"]!.source,
    ]);
  });

  test("has the points of its range, with what differs at each", () => {
    const { quantity, unit, points } = range["sweep"] as {
      readonly quantity: string;
      readonly unit: string;
      readonly points: readonly { readonly at: number; readonly inputs: object }[];
    };
    const table = sweepTable(range, known)!;
    expect(labelText(table.columns[0]!.head)).toBe(quantity);
    const rows = rowsOf(table);
    expect([...new Set(rows.map(([at]) => at!.replaceAll("\u00a0", " ")))]).toEqual(
      points.map(({ at }) => `${String(at).replace("-", "−")} ${unit}`),
    );
    expect(rows.map((row) => row[1])).toEqual(
      points.flatMap(({ inputs }) =>
        Object.keys(inputs).length === 0
          ? [expect.stringMatching(/^nothing/) as string]
          : Object.keys(inputs).map((name) => expect.stringContaining(bath.inputs[name]!.meaning) as string),
      ),
    );
    expect(rows[0]![2]!.replace(/\s/g, " ")).toMatch(
      /^t from repeated indications: 10 indications from [0-9.]+ to [0-9.]+ Ω$/,
    );
  });

  test.each([
    [{ lower: -0.2, upper: 0.2, basis: "order" }, ["e", "from −0.2 to 0.2 °C", "order", "0, simple acceptance"]],
    [{ upper: 0.1 }, ["e", "at most 0.1 °C", "n/a", "0, simple acceptance"]],
    [
      { specification: "iec60751", parameters: { class: "A", temperature: -38.8, element: "wire" } },
      ["e", "class A of IEC 60751 at −38.8 °C, wire element", "n/a", "0, simple acceptance"],
    ],
    [{}, ["e", "none stated", "n/a", "0, simple acceptance"]],
  ])("has its tolerance: %j", (tolerance, row) => {
    const [found] = rowsOf(toleranceTable({ conformity: { error: { tolerance } } }, known));
    const { symbol } = bath.measurands["error"]!;
    expect(found!.map((cell) => cell.replace("–", "n/a"))).toEqual([symbol, ...row.slice(1)]);
  });

  test("has its correlations by symbol", () => {
    const correlations = [{ between: ["bathAxial", "bathRadial"], coefficient: -0.25 }];
    expect(rowsOf(correlationTable({ correlations }, known))).toEqual([
      [`${bath.inputs["bathAxial"]!.symbol}, ${bath.inputs["bathRadial"]!.symbol}`, "−0.25", "no source stated"],
    ]);
    expect(correlationTable({}, known)).toBeNull();
  });

  test.each([
    {},
    { inputs: null, sweep: 7, conformity: [], correlations: "none" },
    { inputs: { a: null }, sweep: { points: [null] } },
  ])("of which nothing is as it should be is shown all the same: %j", (document) => {
    const nothing: Known = { model: null, unitsOf: () => ({}) };
    expect(() =>
      [inputTable, sweepTable, toleranceTable, correlationTable].map((make) => make(document, nothing)),
    ).not.toThrow();
  });
});
