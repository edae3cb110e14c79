import { describe, expect, test } from "vitest";
import type { Quantity } from "../../../../engine/index.ts";
import { BLANK, type Draft } from "../../../../viewer/page/new-study/draft.ts";
import { statedQuantities, withEquationRows } from "../../../../viewer/page/new-study/equation-rows.ts";
import { BLANK_ROW } from "../../../../viewer/page/new-study/row.ts";
import { documentOf } from "../../../../viewer/page/new-study/to-study.ts";
import { kinds } from "./kinds.ts";

const of = (...names: string[]): Readonly<Record<string, Quantity>> =>
  Object.fromEntries(names.map((name) => [name, { symbol: name, meaning: name, unit: "1" }]));
const blank: Draft = { ...BLANK, model: "equation", equation: "e = a + b" };
const keys = ({ rows, results }: Draft): unknown => [rows.map(({ key }) => key), results.map(({ key }) => key)];

describe("the rows of an equation", () => {
  test("come with its inputs and results, and go with them while nothing else is known of them", () => {
    const first = withEquationRows(blank, { inputs: of("a", "b"), measurands: of("e") });
    expect(keys(first)).toEqual([["a", "b"], ["e"]]);
    expect(withEquationRows(first, { inputs: of("a", "b"), measurands: of("e") })).toBe(first);
    expect(keys(withEquationRows(first, { inputs: of("a", "R_X"), measurands: of("f") }))).toEqual([
      ["a", "R_X"],
      ["f"],
    ]);
    const stated = { ...first, rows: first.rows.map((row) => ({ ...row, how: "constant", fields: { value: "1" } })) };
    expect(keys(withEquationRows(stated, { inputs: of("a"), measurands: of("e") }))).toEqual([["a", "b"], ["e"]]);
  });

  test("with Greek letters have the symbol that was typed, and go with it too", () => {
    const inputs = { delta_t: { symbol: "δt", meaning: "δt", unit: "1" } };
    const first = withEquationRows(blank, { inputs, measurands: of("e") });
    expect(first.rows.map(({ key, symbol }) => [key, symbol])).toEqual([["delta_t", "δt"]]);
    expect(statedQuantities(first)).toEqual({});
    expect(keys(withEquationRows(first, { inputs: of("a"), measurands: of("e") }))).toEqual([["a"], ["e"]]);
  });

  test("that a reader began in the table stay, also an empty one", () => {
    const draft = { ...blank, rows: [{ ...BLANK_ROW, symbol: "δt_ax" }] };
    const next = withEquationRows(draft, { inputs: of("a", "delta_t_ax"), measurands: of("e") });
    expect(keys(next)).toEqual([["row-1", "a"], ["e"]]);
    const begun = { ...next, rows: [...next.rows, { ...BLANK_ROW, key: "row-9" }] };
    expect(withEquationRows(begun, { inputs: of("a", "delta_t_ax"), measurands: of("e") })).toBe(begun);
  });

  test("are not stated to the check of an equation before anything is known of them", () => {
    const first = withEquationRows(blank, { inputs: of("a", "b"), measurands: of("e") });
    expect(statedQuantities(first)).toEqual({});
    const known = { ...first, rows: [{ ...first.rows[0]!, unit: "K", meaning: "length" }, first.rows[1]!] };
    expect(statedQuantities(known)).toEqual({ a: { symbol: "a", meaning: "length", unit: "K" } });
  });

  test("are named in the study as in the equation", () => {
    const { parameters, inputs } = documentOf(
      {
        ...withEquationRows(blank, { inputs: of("a"), measurands: of("e") }),
        rows: [{ ...BLANK_ROW, key: "a", symbol: "α", how: "constant", fields: { value: "2" } }],
      },
      [],
      kinds,
    );
    expect(parameters).toEqual({ equation: "e = a + b", quantities: { a: { symbol: "α" }, e: { symbol: "e" } } });
    expect(inputs).toEqual({ a: { distribution: "constant", value: 2 } });
  });
});
