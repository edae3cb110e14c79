// A budget whose inputs stand in columns: asked about, and then read as the same budget in rows.
import { describe, expect, test } from "vitest";
import { proposeMapping, readMapped } from "../../../../models/evaluation/budget-table/index.ts";
import type { Cell, TableRow } from "../../../../models/evaluation/table/table.ts";

const ROWS: readonly (readonly Cell[])[] = [
  ["Quantity", "Estimate", "Unit", "Uncertainty", "How stated", "Distribution", "Divisor", "Sensitivity coefficient"],
  ["certificate of the reference", 0.012, "°C", 0.004, "k = 2", "normal", 2, 1],
  ["zone of the bath", 0, "°C", 0.003, "half-width", "rectangular", "√3", -1],
  ["readout", 0.001, "°C", 0.0008, "standard", "normal", 1, 1],
];
const numbered = (rows: readonly (readonly Cell[])[]): TableRow[] =>
  rows.map((cells, i) => ({ row: i + 1, cells: [...cells] }));
const columns = (rows: readonly (readonly Cell[])[]): Cell[][] =>
  rows[0]!.map((_, j) => rows.map((row) => row[j] ?? null));
const OPTIONS = { title: "Turned", otherwise: "Turned", symbol: "e", meaning: "error", unit: "°C" };
const read = (rows: readonly (readonly Cell[])[], stated: Parameters<typeof readMapped>[1] = {}) =>
  readMapped([{ name: null, rows: numbered(rows) }], { unit: "°C", ...stated }, OPTIONS);

describe("inputs in columns", () => {
  test("are asked about, and are the same study once that is answered", () => {
    const asked = read(columns(ROWS));
    expect(asked.study).toBeNull();
    const [question] = asked.questions;
    expect(question!.question).toBe("Do the inputs stand in columns, one beside the other?");
    expect(question!.because).toContain("Quantity, Estimate, Unit");
    const [yes, no] = question!.answers;
    const turned = read(columns(ROWS), yes!.states);
    const upright = read(ROWS);
    expect(turned.terms).toEqual(upright.terms);
    expect(turned.combined).toBe(upright.combined);
    expect(turned.mapping.turned).toBe(true);
    // Whoever says no is not asked again.
    const asRows = read(columns(ROWS), no!.states);
    expect(asRows.questions.map((one) => one.question)).not.toContain(question!.question);
    expect(asRows.terms).not.toEqual(upright.terms);
  });

  test("are not asked about where rows have headings, nor in a long log", () => {
    expect(read(ROWS).questions.map(({ id }) => id)).not.toContain("headings");
    const log = Array.from({ length: 500 }, (_, i): Cell[] => [`Quantity ${i}`, i]);
    const { questions } = proposeMapping([{ name: null, rows: numbered(log) }]);
    expect(questions[0]!.question).toBe("Which row heads the columns of the budget?");
  });

  test.each([
    ["no cells", []],
    ["empty rows", [[], []]],
    ["a ragged one", [["Quantity", "a"], ["Uncertainty"], ["Estimate", 1, 2, 3]]],
  ] as [string, Cell[][]][])("a sheet with %s is turned without harm", (_, rows) => {
    expect(() => read(rows, { turned: true })).not.toThrow();
  });
});
