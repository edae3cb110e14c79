// Drift over years: against NumPy (tests/reference/history.py), an invented drift computed with 40 digits
// (tests/reference/interlaboratory.json), and days that follow by hand.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { prepare, readStudy } from "../../../engine/index.ts";
import {
  bathComparison,
  calibrationsOfTable,
  driftLine,
  dueDates,
  evaluateHistory,
  onLine,
  readHistory,
  YEAR,
} from "../../../models/index.ts";
import { readExample } from "../../read-example.ts";

const read = (name: string): unknown =>
  JSON.parse(readFileSync(join(import.meta.dirname, "../../reference", name), "utf8"));
interface Case {
  readonly day: readonly number[];
  readonly value: readonly number[];
  readonly u: readonly number[];
  readonly shared: number;
  readonly use: number;
  readonly covariance: readonly (readonly number[])[];
}
type Figures = Readonly<
  Record<
    "chi2" | "p" | "excess" | "a" | "b" | "k" | "prediction" | "u_prediction" | "drift" | "u_drift" | "correlation",
    number
  >
>;
const { cases } = read("history.json") as { readonly cases: Readonly<Record<string, Case & Figures>> };
const START = "2020-01-01";
const dayOf = (days: number): string => new Date(Date.parse(START) + days * 86_400_000).toISOString().slice(0, 10);
const documentOf = ({ day, value, u, shared, use }: Case, more: object = {}): unknown => ({
  title: "History",
  subject: "reference",
  quantities: [{ name: "y", unit: "mK", ...(shared === 0 ? {} : { shared }), ...more }],
  calibrations: day.map((days, i) => ({
    date: dayOf(days),
    results: { y: { value: value[i], standardUncertainty: u[i] } },
  })),
  use: dayOf(use),
});
const close = (found: number, expected: number): void =>
  expect(Math.abs(found - expected)).toBeLessThanOrEqual(1e-8 * Math.max(Math.abs(expected), 1e-6));

describe.each(Object.entries(cases))("%s", (_, given) => {
  const found = evaluateHistory(readHistory(documentOf(given))).quantities[0]!;
  test("line, χ² test and excess scatter", () => {
    close(found.line.value, given.a);
    close(found.line.slope, given.b);
    close(found.line.chiSquare, given.chi2);
    close(found.line.probability!, given.p);
    close(found.line.excess, given.excess);
    given.covariance.forEach((row, i) => row.forEach((c, j) => close(found.line.covariance[i]![j]!, c)));
  });
  test("prediction, drift and its correlation with the last result", () => {
    close(found.coverageFactor, given.k);
    close(found.prediction.value, given.prediction);
    close(found.prediction.standardUncertainty, given.u_prediction);
    close(found.drift.value, given.drift);
    close(found.drift.standardUncertainty, given.u_drift);
    close(found.drift.correlation, given.correlation);
    expect(found.perYear.value).toBeCloseTo(given.b * YEAR, 9);
  });
});

test.each([
  ["independent", 0],
  ["sharedAdded", 0.0005],
] as const)("drift-invented, %s: predictions of a line through four calibrations", (kind, shared) => {
  const { inputs, computed } = (read("interlaboratory.json") as readonly { readonly id: string }[]).find(
    ({ id }) => id === "drift-invented",
  ) as unknown as {
    readonly inputs: Readonly<Record<"day" | "correction_degC" | "u_degC", readonly number[]>>;
    readonly computed: Readonly<
      Record<
        string,
        {
          readonly p: number;
          readonly predictions: readonly { readonly day: number; readonly y: number; readonly u: number }[];
        }
      >
    >;
  };
  const line = driftLine(
    inputs.day.map((day, i) => ({ day, value: inputs.correction_degC[i]!, standardUncertainty: inputs.u_degC[i]! })),
    shared,
    0.05,
  );
  expect(line.excess).toBe(0);
  expect(line.probability).toBeCloseTo(computed[kind]!.p, 9);
  for (const { day, y, u } of computed[kind]!.predictions) {
    const found = onLine(line, day);
    expect(found.value / y).toBeCloseTo(1, 9);
    expect(found.standardUncertainty / u).toBeCloseTo(1, 9);
  }
});

describe("the day by which to calibrate", () => {
  const line = (slope: number, u: number, excess = 0) => ({
    value: 0,
    slope,
    covariance: [
      [0, 0],
      [0, u * u],
    ],
    chiSquare: 0,
    degreesOfFreedom: 3,
    probability: 1,
    excess,
    residuals: [],
  });
  test("0.01 a day ± 0.002: 1 is reached between day 84 and day 125, expected after day 100", () => {
    // (0.01 ± 2·0.001)·d = 1: d = 83.3 and 125.
    expect(dueDates(line(-0.01, 0.001), START, 1, 2)).toEqual({
      by: dayOf(83),
      expected: dayOf(101),
      latest: dayOf(126),
      never: false,
    });
  });
  test("a drift less than its uncertainty has no latest day", () => {
    expect(dueDates(line(0.001, 0.001), START, 1, 2)).toMatchObject({ by: dayOf(333), latest: null });
  });
  test("no drift at all: as far as is looked ahead", () => {
    expect(dueDates(line(0, 0), START, 1, 2)).toMatchObject({ by: dayOf(36_525), expected: null, latest: null });
  });
  test("scatter beyond the limit: no interval is short enough", () => {
    expect(dueDates(line(0.01, 0.001, 0.6), START, 1, 2)).toMatchObject({ by: START, never: true });
  });
});

test("each calibration beside what the earlier ones predicted: a step shows", () => {
  const found = evaluateHistory(readHistory(documentOf(cases["scattered"]!))).quantities[0]!;
  expect(found.entries.map(({ surprise }) => surprise === null || Math.abs(surprise) <= 1)).toEqual([
    true,
    true,
    true,
    true,
    false,
    true,
  ]);
});

test("two calibrations: a line, no χ² test; an excess makes the statement a t", () => {
  const { day, value, u, use } = cases["consistent"]!;
  const two = {
    ...cases["consistent"]!,
    day: day.slice(0, 2),
    value: value.slice(0, 2),
    u: u.slice(0, 2),
    use,
    shared: 0,
  };
  expect(evaluateHistory(readHistory(documentOf(two))).quantities[0]!.line).toMatchObject({
    probability: null,
    excess: 0,
    degreesOfFreedom: 0,
  });
  const scattered = evaluateHistory(readHistory(documentOf(cases["scattered"]!))).quantities[0]!;
  expect(scattered.driftStatement).toMatchObject({ distribution: "t", degreesOfFreedom: 4, unit: "mK" });
});

test("a study takes the drift, in the unit it is stated in", () => {
  const { drift, driftStatement } = evaluateHistory(readHistory(documentOf(cases["falling"]!))).quantities[0]!;
  const document = readExample("harrowfen/cold-store-4");
  const study = readStudy({ ...document, inputs: { ...(document.inputs as object), referenceDrift: driftStatement } });
  const row = prepare(bathComparison, study).linear["error"]!.contributions.find(
    ({ input }) => input === "referenceDrift",
  )!;
  expect(row.estimate).toBeCloseTo(drift.value / 1000, 12);
  expect(row.standardUncertainty).toBeCloseTo(drift.standardUncertainty / 1000, 12);
});

describe("a table", () => {
  const quantities = [{ name: "R0", coverageFactor: 2 }];
  test("standard and expanded uncertainties, empty cells, decimal commas", () => {
    const rows = calibrationsOfTable("date;R0;U(R0)\n2020-01-01;100,01;0,004\n2021-01-01;;\n", "t.csv", quantities);
    expect(rows).toEqual([
      {
        date: "2020-01-01",
        source: "t.csv, row 2",
        results: { R0: { value: 100.01, expandedUncertainty: 0.004, coverageFactor: 2 } },
      },
      { date: "2021-01-01", source: "t.csv, row 3", results: {} },
    ]);
    expect(calibrationsOfTable("date,R0,u(R0)\n2020-01-01,1,0.1", "t.csv", quantities)[0]!.results).toEqual({
      R0: { value: 1, standardUncertainty: 0.1 },
    });
  });
  test.each<[string, string, RegExp]>([
    ["nothing", "", /t\.csv.*an empty table/s],
    ["no date", "day,R0,u(R0)\n", /t\.csv, heading.*a column date/s],
    ["no uncertainty", "date,R0\n2020-01-01,1", /t\.csv, heading.*u\(R0\) or U\(R0\)/s],
    ["no value", "date,u(R0)\n2020-01-01,1", /t\.csv, heading.*a column R0/s],
    ["a word", "date,R0,u(R0)\n2020-01-01,about 1,0.1", /t\.csv, row 2, R0.*about 1.*a number/s],
    ["another day", "date,R0,u(R0)\n01.02.2020,1,0.1", /t\.csv, row 2, date.*01\.02\.2020.*YYYY-MM-DD/s],
  ])("refused: %s", (_, text, message) => {
    expect(() => calibrationsOfTable(text, "t.csv", quantities)).toThrow(message);
  });
});

describe("refused, with the place", () => {
  const good = cases["consistent"]!;
  test.each<[string, unknown, RegExp]>([
    ["one calibration", documentOf({ ...good, day: [0], value: [1], u: [1] }), /quantities\.0.*two or more/s],
    [
      "a use before the last",
      documentOf({ ...good, use: 100 }),
      /use: got "2020-04-10"; expected a day from the last/s,
    ],
    ["two of one day", documentOf({ ...good, day: [0, 0, 1, 2, 3] }), /calibrations\.1\.date.*one calibration a day/s],
    ["an uncertainty of 0", documentOf({ ...good, u: [0, 1, 1, 1, 1] }), /standardUncertainty.*greater than 0/s],
    [
      "a quantity that is not listed",
      { ...(documentOf(good) as object), quantities: [{ name: "z", unit: "K" }] },
      /calibrations\.0\.results: got "y"; expected one of z/s,
    ],
    ["a limit of 0", documentOf(good, { limit: 0 }), /quantities\.0\.limit.*greater than 0/s],
  ])("%s", (_, document, message) => {
    expect(() => evaluateHistory(readHistory(document))).toThrow(message);
  });
});
