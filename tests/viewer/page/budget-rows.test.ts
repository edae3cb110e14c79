import { english } from "../../../viewer/present/numbers.ts";
import { describe, expect, test } from "vitest";
import { inOrder, isOrder, ORDERS } from "../../../viewer/page/panels/budget-rows.ts";
import { budgetRows, type BudgetRow } from "../../../viewer/present/budget.ts";
import { readable } from "../../../viewer/present/readable.ts";
import { commandLine } from "../../../viewer/present/command.ts";
import { reachFor } from "../../../viewer/present/pictures/end.ts";
import { settlingReach } from "../../../viewer/present/pictures/settling.ts";
import { settledShare } from "../../../viewer/page/progress.ts";
import { partOf, RECORDS } from "./fixed-records.ts";

const record = RECORDS["harrowfen/cold-store-4"]!;

const rows = (): BudgetRow[] => budgetRows(record, readable(record.measurands.error!), english);

describe("the budget's rows", () => {
  test("by share puts the largest contribution first and keeps every input", () => {
    const ordered = inOrder(rows(), "share", ORDERS.share.first);
    const shares = ordered.map(({ line }) => line.share);
    expect(shares).toEqual([...shares].sort((a, b) => b - a));
    expect(ordered.map(({ name }) => name).sort()).toEqual(Object.keys(record.inputs).sort());
  });

  test("every order turned round is its own reverse, ties aside", () => {
    for (const name of Object.keys(ORDERS).filter(isOrder)) {
      const value: (row: BudgetRow) => string | number = ORDERS[name].value;
      const up = inOrder(rows(), name, 1).map(value);
      const down = inOrder(rows(), name, -1).map(value);
      expect(down).toEqual(up.toReversed());
    }
  });
});

describe("progress of an adaptive run", () => {
  test("is unknown before two batches, and whole when settled", () => {
    expect(settledShare(partOf(record, 1))).toBeNull();
    expect(settledShare(record)).toBe(1);
  });

  test("follows the figure furthest from its limit by the square", () => {
    const part = partOf(record, 3);
    const { doubled, limit } = part.measurands.error!.monteCarlo.settling;
    const worst = Math.max(...Object.values(doubled).map((value) => value ?? 0));
    expect(settledShare(part)).toBeCloseTo((limit / worst) ** 2, 12);
  });
});

test("the pictures of the ends hold both differences and the tolerance", () => {
  for (const { measurands, coverage } of Object.values(RECORDS)) {
    for (const { linear, monteCarlo, validation } of Object.values(measurands)) {
      const differences = monteCarlo.intervals[coverage.interval].map((end, i) => end - linear.interval[i]!);
      const reach = reachFor(
        differences,
        validation.numericalTolerance,
        monteCarlo.standardErrors[coverage.interval] ?? null,
      );
      expect(reach).toBeGreaterThan(validation.numericalTolerance);
      for (const [end, d] of differences.entries()) {
        const whisker = 2 * (monteCarlo.standardErrors[coverage.interval]?.[end] ?? 0);
        expect(reach).toBeGreaterThan(Math.abs(d) + whisker);
      }
      // Few trials leave an endpoint uncertain by more than the tolerance: its bar stays in the picture too.
      expect(reachFor(differences, validation.numericalTolerance, [1, 1])).toBeGreaterThan(
        2 + Math.abs(differences[0]!),
      );
    }
  }
});

test("the pictures of settling hold the limit and the last band", () => {
  for (const { measurands } of Object.values(RECORDS)) {
    for (const { monteCarlo } of Object.values(measurands)) {
      const { points, limit, doubled } = monteCarlo.settling;
      const reach = settlingReach(points, limit);
      expect(reach).toBeGreaterThan(limit);
      for (const band of Object.values(doubled)) expect(reach).toBeGreaterThan(band ?? 0);
    }
  }
});

test("the command line repeats the run, whatever the seed holds", () => {
  expect(commandLine(record, "examples/harrowfen/cold-store-4.json")).toBe(
    "npx trialband run examples/harrowfen/cold-store-4.json --seed harrowfen-cold-store-4 --trials 70000",
  );
  const odd = { ...record, generator: { ...record.generator, seed: "it's 5 o'clock" } };
  expect(commandLine(odd, null)).toBe(
    String.raw`npx trialband run study.json --seed 'it'\''s 5 o'\''clock' --trials 70000`,
  );
});
