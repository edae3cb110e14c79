// JCGM 101, clauses 7.9 and 8: what a verdict may say from the trials it has.
import { describe, expect, test } from "vitest";
import { defineModel, prepare, readStudy, type MeasurandRecord } from "../../../engine/index.ts";
import { normalQuantile } from "../../../engine/numerics/standard-normal.ts";
import { tQuantile } from "../../../engine/numerics/standard-t.ts";
import {
  AT_THE_LIMIT,
  normal,
  of,
  one,
  q,
  rectangular,
  runOf,
  stoppingByChance,
  sum,
  t,
  verdictNearItsLimit,
} from "./near-the-limit.ts";
import { LONG } from "../../setup/long.ts";

describe("a verdict near its limit", () => {
  verdictNearItsLimit(["1", "2", "3", "4"]);

  test("a shortest interval is judged by its own scatter, which is larger", () => {
    const coverage = { probability: 0.95, interval: "shortest" };
    for (const seed of ["1", "2", "3"]) {
      const { validation, monteCarlo } = of(sum, AT_THE_LIMIT, { trials: "adaptive", seed, coverage });
      expect(validation.firm).toBe(false);
      expect(monteCarlo.standardErrors.shortest![0]).toBeGreaterThan(monteCarlo.standardErrors.symmetric[0]);
    }
    // Too few batches to know it by.
    const { validation } = of(one, { a: normal(0, 1) }, { trials: 50_000, coverage });
    expect(validation.doubts).toEqual(["scatterUnknown"]);
  });

  test("a tolerance shown beside a difference that rounds to the same figure has more digits", () => {
    const { validation } = of(sum, AT_THE_LIMIT, { trials: "adaptive", seed: "4" });
    // To two digits, as it is shown otherwise, the difference would read 0.050.
    expect(Math.abs(validation.dHigh - 0.05)).toBeLessThan(0.0005);
    const [difference, tolerance] = /at most ([\d.]+), δ = ([\d.]+),/.exec(validation.sentence)!.slice(1) as [
      string,
      string,
    ];
    expect(difference).not.toBe(tolerance);
    expect(difference.length).toBe(tolerance.length);
  });
});

describe("the adaptive procedure", () => {
  test("settles to the smaller of the δ of both u(y) where they lie in different decades (7.9.2, 8.1)", () => {
    // A t with ν = 100 has u = 0.0948·√(100/98) = 0.0958: to one digit δ is 0.05 by it, 0.005 by the linear u = 0.0948.
    const { monteCarlo, validation } = of(one, { a: t(0.0948, 100) }, { trials: "adaptive", significantDigits: 1 });
    expect(monteCarlo.standardUncertainty).toBeGreaterThan(0.095);
    expect(validation.numericalTolerance).toBe(0.005);
    expect(monteCarlo.settling.limit).toBe(0.001);
  });

  stoppingByChance(60);
});

describe("trials against the coverage probability", () => {
  const coverage = { probability: 0.9999 };
  test("fewer than 100/(1 − p) are refused (7.9.4)", () => {
    expect(() => runOf(one, { a: normal(0, 1) }, { trials: 999_999, coverage })).toThrow(
      "trials: got 999999; expected at least 100/(1 − p) = 1000000",
    );
    expect(() => runOf(one, { a: normal(0, 1) }, { trials: 1999 })).toThrow("= 2000 trials");
  });

  test("fewer than 10⁴/(1 − p) draw a remark (7.2.2)", () => {
    const remarks = (trials: number): string[] =>
      runOf(one, { a: normal(0, 1) }, { trials }).remarks.filter((remark) => remark.includes("7.2.2"));
    expect(remarks(199_999)).toEqual([expect.stringContaining("199999 trials are fewer than the 200000")]);
    expect(remarks(200_000)).toEqual([]);
  });

  test("a run under way with less than 50 trials beyond an end is not firm", () => {
    const prepared = prepare(
      one as never,
      readStudy({ title: "t", model: "one", inputs: { a: normal(0, 1) }, coverage }),
    );
    expect(prepared.batch).toBe(1_000_000);
    // JCGM 101 prints k = 3.89 for a normal at 99.99 %; 10⁶ trials know the end to a per cent.
    const { validation } = of(one, { a: normal(0, 1) }, { coverage });
    expect(validation.coverageFactorNeeded).toBeCloseTo(-normalQuantile(0.00005), 1);
  });
});

describe("moments that do not exist", () => {
  test.each([
    { ν: 3, exists: false },
    { ν: 4, exists: false },
    { ν: 5, exists: true },
  ])("a t with ν = $ν: the standard error of u exists: $exists", ({ ν, exists }) => {
    const record = runOf(one, { a: t(1, ν) }, { trials: 100_000 });
    const { monteCarlo } = record.measurands["y"]!;
    expect(monteCarlo.standardUncertainty).toBeGreaterThan(1);
    expect(monteCarlo.standardErrors.estimate).toBeGreaterThan(0);
    expect(monteCarlo.standardErrors.standardUncertainty !== null).toBe(exists);
    expect(monteCarlo.settling.doubled.standardUncertainty !== null).toBe(exists);
    expect(record.remarks.some((remark) => remark.includes("no fourth moment"))).toBe(!exists);
  });

  test("1/x about 1 ± 0.4 has neither mean nor u, and the record says that they do not settle", () => {
    const inverse = defineModel({
      id: "inverse",
      title: "inverse",
      measurands: { y: q("y") },
      inputs: { a: q("a") },
      evaluate: ({ a }) => 1 / a,
    });
    const record = runOf(inverse as never, { a: normal(1, 0.4) }, { trials: 200_000 });
    const { monteCarlo } = record.measurands["y"]!;
    // P(|Y| > y) = 2 φ(0; 1, 0.4)/y for large y: a power of 1.
    expect(monteCarlo.tailIndex).toBeCloseTo(1, 0);
    expect(monteCarlo.standardErrors).toMatchObject({ estimate: null, standardUncertainty: null });
    expect(record.remarks).toContainEqual(expect.stringContaining("neither its mean nor u(y) settles"));
  });

  test.each([
    ["normal", normal(0, 1)],
    ["exponential", { distribution: "exponential", estimate: 1 }],
    ["t, ν = 5", t(1, 5)],
    ["t, ν = 3", t(1, 3)],
    ["two values", { distribution: "discrete", values: [0, 1], probabilities: [0.5, 0.5] }],
  ])("no such remark for %s", (_, a) => {
    expect(of(one, { a }, { trials: 200_000 }).monteCarlo.tailIndex).toBeUndefined();
  });
});

test("ends far in the tails are known where trials are counted and not kept: t with ν = 1 at p = 0.9999", LONG, () => {
  const { monteCarlo } = of(one, { a: t(1, 1) }, { trials: 2_500_000, coverage: { probability: 0.9999 } });
  const exact = tQuantile(0.00005, 1); // −6366.2: cot(π·0.00005)
  const [low, high] = monteCarlo.intervals.symmetric;
  const [lowError, highError] = monteCarlo.standardErrors.symmetric;
  // At rank 125 the relative standard error of a Cauchy's quantile is 1/√125.
  expect(lowError).toBeGreaterThan(-exact / Math.sqrt(125) / 1.5);
  expect(lowError).toBeLessThan((-exact / Math.sqrt(125)) * 1.5);
  expect(Math.abs(low - exact)).toBeLessThan(4 * lowError);
  expect(Math.abs(high + exact)).toBeLessThan(4 * highError);
  expect(monteCarlo.resolution).toBeLessThan(lowError / 10);
});

test("rounding of doubles is told where it decides: 9 192 631 770 Hz with u = 2 µHz", () => {
  const record = runOf(one, { a: normal(9_192_631_770, 2e-6) }, { trials: 100_000 });
  const { validation, explanation } = record.measurands["y"]!;
  expect(validation.doubts).toContain("rounding");
  expect(explanation!.recommendation.action).toBe("state-deviation");
  expect(record.remarks).toContainEqual(expect.stringContaining("deviation from a nominal value"));
  // The same difference of two such inputs is as badly known, though its own value is small.
  const difference = defineModel({
    id: "difference",
    title: "difference",
    measurands: { y: q("y") },
    inputs: { a: q("a"), b: q("b") },
    evaluate: ({ a, b }) => a - b,
  });
  const apart = of(difference as never, { a: normal(9_192_631_770, 2e-6), b: normal(9_192_631_770, 2e-6) });
  expect(apart.validation.doubts).toContain("rounding");
  expect(of(one, { a: normal(0, 2e-6) }, { trials: 1_000_000 }).validation.doubts).toBeUndefined();
});

describe("no uncertainty", () => {
  test("constants alone: nothing varies, which is a sentence of its own", () => {
    const constants = { a: { distribution: "constant", value: 1 }, b: { distribution: "constant", value: 2 } };
    const { validation, explanation } = of(sum, constants, { trials: 20_000 });
    expect(validation).toMatchObject({ nothingVaries: true, validated: true, firm: true });
    expect(validation.sentence).toBe(
      "Nothing varies: neither the linear budget nor the trials find any uncertainty, so there is nothing to validate.",
    );
    expect(explanation!.recommendation.sentence).not.toMatch(/Keep the linear budget/);
  });

  test("a result that does not vary, of inputs without a standard deviation, is no different", LONG, () => {
    const still = defineModel({ ...sum, id: "still", evaluate: () => 7 });
    const { validation, explanation } = of(still as never, { a: t(1, 1), b: rectangular(0, 1) });
    expect(validation).toMatchObject({ nothingVaries: true, validated: true, firm: true });
    expect(explanation!.recommendation).toMatchObject({ action: "keep", inputs: [] });
    expect(explanation!.recommendation.sentence).toMatch(/^There is no uncertainty to report/);
  });

  test("a linear u of 0 beside trials that scatter is never validated", () => {
    const flat = defineModel({
      id: "flat",
      title: "flat",
      measurands: { y: q("y") },
      inputs: { a: q("a") },
      evaluate: ({ a }) => a * a * a * a * a * a,
    });
    const { validation } = of(flat as never, { a: normal(0, 1) }, { significantDigits: 1, trials: 100_000 });
    expect(validation).toMatchObject({ validated: false, firm: true });
    expect(validation.atDigits.map(({ validated }) => validated)).toEqual([false, false]);
    expect(validation.sentence).toMatch(/every sensitivity coefficient vanishes/);
    const cancelled = of(
      defineModel({ ...sum, id: "apart", evaluate: ({ a, b }) => a - b + 0.01 * a * b }) as never,
      { a: normal(0, 1), b: normal(0, 1) },
      { correlations: [{ between: ["a", "b"], coefficient: 1 }], trials: 100_000 },
    );
    expect(cancelled.linear.standardUncertainty).toBe(0);
    expect(cancelled.validation.validated).toBe(false);
    expect(cancelled.validation.sentence).toMatch(/correlated contributions cancel/);
  });
});

describe("any scale that a double holds", () => {
  const inputs = (scale: number) => ({ a: t(scale, 9, 3 * scale), b: rectangular(scale, 2 * scale) });
  const numbers = (value: unknown, path = ""): [string, number][] =>
    typeof value === "number"
      ? [[path, value]]
      : typeof value === "object" && value !== null
        ? Object.entries(value).flatMap(([key, item]) => numbers(item, `${path}/${key}`))
        : [];
  const plain = of(sum, inputs(1), { trials: 20_000 });
  test.each([2 ** -1000, 2 ** -541, 2 ** -300, 2 ** 300, 2 ** 532, 2 ** 1000])("%d", (scale) => {
    const record = of(sum, inputs(scale), { trials: 20_000 });
    for (const [path, value] of numbers(record)) expect([path, Number.isFinite(value)]).toEqual([path, true]);
    expect(JSON.stringify(record)).not.toMatch(/NaN|Infinity/);
    const scaled = (figure: (of: MeasurandRecord) => number): void =>
      expect(figure(record) / scale / figure(plain) - 1).toBeCloseTo(0, 12);
    scaled(({ monteCarlo }) => monteCarlo.estimate!);
    scaled(({ monteCarlo }) => monteCarlo.standardUncertainty!);
    scaled(({ monteCarlo }) => monteCarlo.intervals.symmetric[1]);
    scaled(({ monteCarlo }) => monteCarlo.intervals.shortest[0]);
    scaled(({ monteCarlo }) => monteCarlo.standardErrors.standardUncertainty!);
    scaled(({ monteCarlo }) => monteCarlo.standardErrors.symmetric[0]);
    scaled(({ monteCarlo }) => monteCarlo.settling.doubled.estimate!);
    scaled(({ linear }) => linear.standardUncertainty);
    scaled(({ secondOrder }) => secondOrder!.standardUncertainty);
    expect(record.linear.effectiveDegreesOfFreedom).toBeCloseTo(plain.linear.effectiveDegreesOfFreedom!, 9);
    expect(record.monteCarlo.excessKurtosis).toBeCloseTo(plain.monteCarlo.excessKurtosis!, 12);
  });
});

describe("where the intervals lie is told from the signs of both ends", () => {
  test("a shift, one end alone, and a difference of width below 1 %", () => {
    const shift = defineModel({
      id: "shift",
      title: "shift",
      measurands: { y: q("y") },
      inputs: { a: q("a") },
      evaluate: ({ a }) => a + 0.02 * a * a,
    });
    // The mean of 0.02·a² is 0.02: both ends lie higher by 0.02·1.96² = 0.08.
    expect(of(shift as never, { a: normal(0, 1) }).validation.sentence).toMatch(
      /equally wide to within 1 %, but the Monte Carlo interval lies higher at both endpoints/,
    );
    // t with ν = 40 for a normal of k = 1.96: k = 2.02 is 3 % more; with ν = 400, 0.3 %.
    const narrow = of(one, { a: t(0.994, 150) }, { coverage: { factor: 2 }, trials: 4_000_000 });
    expect(narrow.validation.sentence).not.toMatch(/equally wide/);
  });
});
