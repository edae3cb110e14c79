import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readStudy } from "../../../../engine/index.ts";
import { BATH_FLUIDS } from "../../../../models/safety/fluids.ts";
import { FLUIDS } from "../../../../viewer/present/fluids.ts";
import { columnFromHeading, columnOf } from "../../../../viewer/page/new-study/columns.ts";
import { BLANK, type Draft } from "../../../../viewer/page/new-study/draft.ts";
import { draftOf } from "../../../../viewer/page/new-study/from-study.ts";
import { howFromWords, howOf, HOWS, HOW_CELLS } from "../../../../viewer/page/new-study/hows.ts";
import { BLANK_ROW, type Row } from "../../../../viewer/page/new-study/row.ts";
import { columnsFor, copiedText, withPasted } from "../../../../viewer/page/new-study/spreadsheet.ts";
import { documentOf } from "../../../../viewer/page/new-study/to-study.ts";
import { kinds } from "./kinds.ts";

const SUM = columnsFor("additive");
const figure = fc.double({ min: 1e-6, max: 1e6, noNaN: true });
const line = fc
  .string({ unit: fc.constantFrom(..."abcXYZ δ°=,;\"'\t\n12"), minLength: 1, maxLength: 12 })
  .map((text) => text.trim());
const symbol = fc.integer({ min: 1, max: 999 }).map((n) => `x_${n}`);
const unit = fc.constantFrom("°C", "mK", "Ω", "1", "kg");

/** A row with every cell that its way of being known asks for, as a person would type it. */
const row = fc
  .record({
    how: fc.constantFrom(...HOWS.filter(({ id }) => id !== "mixture")),
    symbol,
    meaning: line,
    unit,
    ofTemperature: fc.constantFrom("difference", "temperature", "" as const),
    figures: fc.array(figure, { minLength: 4, maxLength: 4 }),
    list: fc.array(figure, { minLength: 2, maxLength: 4 }),
    ν: fc.option(fc.integer({ min: 1, max: 50 })),
    sensitivity: fc.double({ min: -100, max: 100, noNaN: true }),
    source: line,
    comma: fc.boolean(),
  })
  .map(({ how, figures, list, ν, sensitivity, source, comma, ...rest }): Row => {
    const text = (value: number): string => (comma ? String(value).replace(".", ",") : String(value));
    const shapes = new Map(
      kinds.find(({ name }) => name === how.kind)!.fields.map((field) => [field.name, field.shape]),
    );
    const fields: Record<string, string> = { source };
    for (const [i, name] of HOW_CELLS.entries()) {
      const cell = how[name];
      if (cell === undefined) continue;
      if (name === "nu") fields[cell.field] = ν === null ? "" : String(ν);
      else fields[cell.field] = shapes.get(cell.field) === "numbers" ? list.map(text).join("; ") : text(figures[i]!);
    }
    return { ...BLANK_ROW, ...rest, how: how.id, fields, sensitivity: text(sensitivity) };
  });
const rows = fc
  .uniqueArray(row, { minLength: 1, maxLength: 6, selector: (one) => one.symbol })
  .map((all) => all.map((one, i) => ({ ...one, key: `row-${i + 1}` })));

/** What a row says, whatever empty texts it has. */
const said = ({ fields, ...one }: Row): object => ({
  ...one,
  fields: Object.fromEntries(Object.entries(fields).filter(([, text]) => text !== "")),
});

describe("what the table writes, it reads back", () => {
  test("a study becomes rows and the same study again", () => {
    fc.assert(
      fc.property(rows, unit, (all, result) => {
        const written: Draft = {
          ...BLANK,
          title: "t",
          rows: all,
          results: [{ key: "result-1", symbol: "y", meaning: "sum", unit: result, ofTemperature: "difference" }],
        };
        const study = documentOf(written, [], kinds);
        const again = draftOf(study);
        expect(documentOf(again, [], kinds)).toEqual(study);
        expect(again.rows.map(({ unit: own, sensitivity }) => [own, Number(sensitivity)])).toEqual(
          all.map(({ unit: own, sensitivity }) => [own, Number(sensitivity.replace(",", "."))]),
        );
      }),
      { seed: 16, numRuns: 60 },
    );
  });

  test("rows are copied as a spreadsheet takes them, and pasted as the same rows", () => {
    fc.assert(
      fc.property(rows, (all) => {
        const text = copiedText(all, SUM, kinds);
        const {
          rows: pasted,
          unknown,
          unread,
          count,
        } = withPasted([BLANK_ROW], text, { row: 0, column: "symbol" }, SUM, true);
        expect([unknown, unread, count]).toEqual([[], [], all.length]);
        expect(pasted.map(said)).toEqual(all.map(said));
      }),
      { seed: 17, numRuns: 60 },
    );
  });

  test("the engine takes what the table writes of a sum with units of one kind", () => {
    const study = documentOf(
      {
        ...BLANK,
        title: "t",
        rows: [
          {
            ...BLANK_ROW,
            symbol: "δt_ax",
            unit: "mK",
            how: "rectangular",
            fields: { estimate: "0", halfWidth: "2,5" },
          },
          {
            ...BLANK_ROW,
            key: "row-2",
            symbol: "δt_ax2",
            unit: "°C",
            ofTemperature: "difference",
            how: "readings",
            fields: { values: "0,1; 0,2" },
          },
        ],
        results: [{ key: "result-1", symbol: "e", meaning: "error", unit: "°C", ofTemperature: "difference" }],
      },
      [],
      kinds,
    );
    expect(readStudy(study).inputs).toEqual({
      delta_t_ax: { distribution: "rectangular", estimate: 0, halfWidth: 2.5, unit: "mK" },
      delta_t_ax2: { distribution: "readings", values: [0.1, 0.2] },
    });
    expect(study["parameters"]).toMatchObject({
      coefficients: { delta_t_ax: 1, delta_t_ax2: 1 },
      // Figures in mK of a term in °C: the engine converts them, as a difference.
      terms: { delta_t_ax: { symbol: "δt_ax", unit: "°C", difference: true } },
    });
  });
});

describe("a spreadsheet", () => {
  const paste = (text: string, before: readonly Row[] = [BLANK_ROW], column: "symbol" | "value" | "first" = "symbol") =>
    withPasted(before, text, { row: 0, column }, SUM, true);

  test.each([
    ["Value / °C", "value", "°C"],
    ["Uncertainty (mK)", "first", "mK"],
    ["Estimate [deg C]", "value", "°C"],
    ["Verteilung", "how", ""],
    ["Freiheitsgrade", "nu", ""],
    ["Wert in Ω", "value", "Ω"],
  ])("has the heading %j for the column %j in %j", (heading, column, own) => {
    expect(columnFromHeading(heading)).toEqual({ column, unit: own });
  });

  test.each([
    ["rect.", "rectangular", null],
    ["Rechteckverteilung", "rectangular", null],
    ["U (k=2,1)", "certificate", "2,1"],
    ["normal", "standard", null],
    ["triangular", "triangular", null],
    ["Student t", "standard", null],
    ["indications, repeated", "readings", null],
    ["arc sine, ± a", "arcsine", null],
  ])("says %j for %j with k %j", (words, how, k) => {
    expect(howFromWords(words)).toEqual({ how, k });
  });

  test("has a heading that means no column, and a word that says nothing known: both are named", () => {
    const { rows: all, unknown, unread } = paste("Symbol\tValue\tOwner\tDistribution\na\t1\tme\twobbly\n");
    expect([unknown, unread]).toEqual([["Owner"], ["wobbly"]]);
    expect(all).toHaveLength(1);
    expect(columnOf("value").get(all[0]!)).toBe("1");
  });

  test("has units beside figures, a sign of ± and an infinite ν", () => {
    const [first] = paste("Symbol\tHalf-width\tDistribution\tν\na\t±2,5 mK\trect.\t∞\n").rows;
    expect(first).toMatchObject({ unit: "mK", how: "rectangular", fields: { halfWidth: "2,5", degreesOfFreedom: "" } });
  });

  test("keeps a figure in another unit than its row's as it was written, for the reader to mend", () => {
    const [first] = paste("2,5 mK", [{ ...BLANK_ROW, unit: "°C", how: "rectangular" }], "first").rows;
    expect(first!.fields["halfWidth"]).toBe("2,5 mK");
  });

  test("without headings fills from the cell on, adds rows, and leaves the columns before as they were", () => {
    const before = [{ ...BLANK_ROW, symbol: "a", how: "rectangular" }];
    const { rows: all } = paste("1\t°C\n2\t°C\n", before, "value");
    expect(all.map((one) => [one.symbol, columnOf("value").get(one), one.unit])).toEqual([
      ["a", "1", "°C"],
      ["", "2", "°C"],
    ]);
  });

  test("finds the rows of a model by their symbols, and says how many lines found none", () => {
    const fixed = ["R_X", "δt_ax"].map((one): Row => ({ ...BLANK_ROW, key: one, symbol: one, how: "rectangular" }));
    const {
      rows: all,
      lost,
      count,
    } = withPasted(
      fixed,
      "Symbol\tHalf-width\nδt_ax\t0,5\nδt_gone\t0,1\n",
      { row: 0, column: "value" },
      columnsFor(null),
      false,
    );
    expect([count, lost]).toEqual([1, 1]);
    expect(all.map(({ fields }) => fields["halfWidth"])).toEqual([undefined, "0,5"]);
  });
});

test("every kind of distribution has a way of stating it, with cells for what it needs or fields in the row below", () => {
  const ways = new Set<string>(HOWS.flatMap(({ kind, withNu }) => [kind, withNu ?? kind]));
  expect(kinds.map(({ name }) => name).filter((name) => !ways.has(name))).toEqual([]);
  for (const how of HOWS)
    for (const name of HOW_CELLS)
      if (how[name] !== undefined)
        expect(
          [how.kind, how.withNu].flatMap(
            (kind) => kinds.find((one) => one.name === kind)?.fields.map((field) => field.name) ?? [],
          ),
          how.id,
        ).toContain(how[name]!.field);
  expect(howOf("nothing")).toBe(undefined);
});

test("the fluids of a bath are those that the safety checks know", () => {
  expect(FLUIDS.map(([kind]) => kind).filter((kind) => kind !== "")).toEqual(BATH_FLUIDS.map(({ kind }) => kind));
});
