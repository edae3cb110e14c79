import { describe, expect, test } from "vitest";
import { readPlanTable, type Cell } from "../../../../models/index.ts";

const table = (...rows: Cell[][]) => rows.map((cells, i) => ({ row: i + 1, cells }));

describe("a table beside a log", () => {
  test("of steps, with a title above it, a German heading and moments as they are written", () => {
    expect(
      readPlanTable(
        table(
          ["Vermessung Bad 3", null, null, null, null],
          ["Schritt", "Von", "Bis", "HS-11", "HS-12 / °C", "Bemerkung"],
          [1, "12.01.2026 08:00", "12.01.2026 08:39:40", "Mitte", "Mitte", "Ruhe"],
          [null, null, null, null, null],
          [2, "2026-01-12 08:40", "03/04/2026 09:00", "unten", "–"],
        ),
      ),
    ).toEqual({
      kind: "steps",
      steps: [
        { from: "2026-01-12 08:00:00", to: "2026-01-12 08:39:40", at: { "HS-11": "Mitte", "HS-12": "Mitte" } },
        // A date that may be two stays as it is: the form asks.
        { from: "2026-01-12 08:40:00", to: "03/04/2026 09:00", at: { "HS-11": "unten" } },
      ],
    });
  });

  test("of steps in seconds since the start", () => {
    expect(readPlanTable(table(["from / s", "to / s", "A", "B"], [0, 4490.5, "centre", ""]))).toEqual({
      kind: "steps",
      steps: [{ from: "0", to: "4490.5", at: { A: "centre" } }],
    });
  });

  test("of positions, lengths in mm whatever they are written in", () => {
    expect(
      readPlanTable(
        table(
          ["Ort", "Tiefe [cm]", "Abstand von der Achse [mm]", "Richtung"],
          ["Mitte", "28", 0, ""],
          ["tief", "0,29 m", "ca. 5", "Osten"],
        ),
      ),
    ).toEqual({
      kind: "positions",
      positions: [
        { name: "Mitte", depth: "280", radius: "0", direction: "" },
        { name: "tief", depth: "290", radius: "ca. 5", direction: "Osten" },
      ],
    });
  });

  test("reads cells of any length in no more than their length takes", () => {
    const long = " x".repeat(100_000);
    const plan = readPlanTable(table(["from", "to", "A"], [long, `${" ".repeat(200_000)}m`, long]));
    expect(plan).toMatchObject({ kind: "steps" });
    expect(readPlanTable(table(["position", "depth"], ["a", `1${" ".repeat(200_000)}mm`]))).toEqual({
      kind: "positions",
      positions: [{ name: "a", depth: "1", radius: "", direction: "" }],
    });
  });

  test.each<[string, Cell[][]]>([
    [
      "a log",
      [
        ["time", "HS-11 / °C", "HS-12 / °C"],
        [0, 71.98, 71.99],
      ],
    ],
    [
      "a log with times from and to, and nothing else",
      [
        ["from", "to"],
        [0, 1],
      ],
    ],
    ["an empty file", []],
    [
      "a budget",
      [
        ["Quantity", "Value", "Unit", "Uncertainty"],
        ["a", 1, "mK", 2],
      ],
    ],
    [
      "more rows than a survey has steps",
      [["from", "to", "A"], ...Array.from({ length: 501 }, () => [0, 1, "centre"])],
    ],
  ])("is none: %s", (_, rows) => {
    expect(readPlanTable(table(...rows))).toBeNull();
  });
});
