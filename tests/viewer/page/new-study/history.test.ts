import { describe, expect, test } from "vitest";
import { columnOf } from "../../../../viewer/page/new-study/columns.ts";
import { createHistory } from "../../../../viewer/page/new-study/history.ts";
import { withFilled, withMoved, withNewRow } from "../../../../viewer/page/new-study/row-list.ts";
import { BLANK_ROW, withHow, type Row } from "../../../../viewer/page/new-study/row.ts";

describe("undo and redo", () => {
  test("go back and forth by steps; the letters of one field are one step until the reader leaves it", () => {
    const history = createHistory("");
    for (const text of ["a", "ab", "abc"]) history.push(text, "cell-1");
    history.push("abc d", "cell-2");
    history.settle();
    history.push("abc de", "cell-2");
    expect([history.undo(), history.undo(), history.undo(), history.undo()]).toEqual(["abc d", "abc", "", null]);
    expect([history.canUndo(), history.canRedo()]).toEqual([false, true]);
    expect([history.redo(), history.redo()]).toEqual(["abc", "abc d"]);
    history.push("other", "");
    expect([history.now(), history.redo(), history.undo()]).toEqual(["other", null, "abc d"]);
  });

  test("each change without a field is a step of its own", () => {
    const history = createHistory(0);
    history.push(1, "");
    history.push(2, "");
    expect([history.undo(), history.undo()]).toEqual([1, 0]);
  });
});

describe("rows", () => {
  const rows = ["a", "b", "c"].map((symbol, i): Row => ({ ...BLANK_ROW, key: `row-${i + 1}`, symbol, unit: "K" }));
  const symbols = (all: readonly Row[]): string => all.map(({ symbol }) => symbol).join("");

  test("a new one stands after its neighbour, with its unit and a key of its own", () => {
    const { rows: next, key } = withNewRow(rows, 0);
    expect(symbols(next)).toBe("abc");
    expect(next[1]).toMatchObject({ key, symbol: "", unit: "K", sensitivity: "1" });
    expect(new Set(next.map((row) => row.key)).size).toBe(4);
  });

  test.each([
    [0, 1, "bac"],
    [2, -1, "acb"],
    [0, -1, "abc"],
    [2, 1, "abc"],
  ] as const)("row %j moved by %j gives %j", (at, by, order) => {
    expect(symbols(withMoved(rows, at, by))).toBe(order);
  });

  test("are filled down from one to another", () => {
    expect(symbols(withFilled(rows, columnOf("symbol"), 0, 1))).toBe("aac");
  });

  test("a figure stays in its cell as it is known in another way, and limits are not mixed with a half-width", () => {
    const row: Row = { ...BLANK_ROW, how: "standard", fields: { estimate: "1", standardUncertainty: "0,5" } };
    expect(withHow(row, "rectangular").fields).toEqual({ estimate: "1", halfWidth: "0,5" });
    expect(withHow(withHow(row, "rectangular"), "constant").fields).toEqual({ value: "1", halfWidth: "0,5" });
    // What was typed before it was said how the quantity is known waits for the cell.
    const first = columnOf("first").set(BLANK_ROW, "0,3");
    expect(columnOf("how").set(first, "certificate").fields).toEqual({ expandedUncertainty: "0,3" });
  });
});
