import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  errorFromTwoWithdrawals,
  errorFromWithdrawal,
  evaluateImmersion,
  evaluateWithdrawal,
  fitStemConduction,
  immersionSchema,
  immersionStatement,
  readDocument,
  stemConductionStatement,
  withdrawalStatement,
} from "../../../../models/index.ts";
import computed from "../../../reference/bath-computed.json" with { type: "json" };
import figures from "../../../reference/bath.json" with { type: "json" };

const relative = (value: number, expected: number): number => Math.abs(value - expected) / Math.abs(expected);
const { immersion } = figures;
const given = immersion.values;

describe("stem conduction (exponential law; figures computed independently)", () => {
  const depths = given.depths_mm.map((depth, i) => ({ depth, reading: given.t_bath_C + given.errors_mK[i]! / 1000 }));

  it("gives the error from one withdrawal if the conduction length is known", () => {
    expect(
      relative(errorFromWithdrawal(given.from_250_withdraw_10_mK, 10, given.l_mm), given.error_at_250_recovered_mK),
    ).toBeLessThan(1e-8);
  });

  it("gives error and conduction length from two equal withdrawals", () => {
    const { error, conductionLength } = errorFromTwoWithdrawals(
      given.from_250_withdraw_10_mK,
      given.from_240_withdraw_10_mK,
      10,
    );
    expect(relative(conductionLength, given.l_recovered_mm)).toBeLessThan(1e-8);
    expect(relative(error, given.error_at_250_recovered_mK)).toBeLessThan(1e-8);
  });

  it("fits the curve through six depths", () => {
    const fit = fitStemConduction(depths, { planned: 300, limit: 0.002 });
    // Readings of 200 °C carry 2.8e-14 each, of a range of 58 mK; errors are printed to ten digits.
    expect(relative(fit.conductionLength, given.l_mm)).toBeLessThan(1e-8);
    fit.errors.forEach((error, i) => expect(relative(error * 1000, given.errors_mK[i]!)).toBeLessThan(1e-8));
    expect(fit.enough).toBe(true);
    // 25 mm·ln(59.37688514/2) below 200 mm.
    expect(fit.sufficientDepth).toBeCloseTo(200 + 25 * Math.log(59.37688514 / 2), 6);
  });

  it("agrees with a general least-squares fit of scattered readings (scipy curve_fit)", () => {
    const { depths: at, readings, planned, ...expected } = computed.stem;
    const fit = fitStemConduction(
      at.map((depth, i) => ({ depth, reading: readings[i]! })),
      { planned, limit: 0.002 },
    );
    expect(relative(fit.conductionLength, expected.conductionLength)).toBeLessThan(1e-6);
    expect(fit.limiting).toBeCloseTo(expected.limiting, 8);
    expect(relative(fit.residualDeviation!, expected.residualDeviation)).toBeLessThan(1e-6);
    expect(relative(fit.plannedError, expected.plannedError)).toBeLessThan(1e-5);
    expect(relative(fit.plannedStandardUncertainty!, expected.plannedStandardUncertainty)).toBeLessThan(1e-4);
    const statement = stemConductionStatement(fit);
    // |error| + t(0.975; 3)·u.
    expect(statement).toMatchObject({
      halfWidth: expect.closeTo(Math.abs(expected.plannedError) + 3.182446305 * expected.plannedStandardUncertainty, 6),
    });
  });

  it("property: three exact depths give back any conduction length", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 8, max: 80, noNaN: true }),
        fc.double({ min: -0.2, max: -0.01, noNaN: true }),
        (length, error) => {
          const at = [150, 190, 240].map((depth) => ({ depth, reading: error * Math.exp((150 - depth) / length) }));
          const fit = fitStemConduction(at, { planned: 300, limit: 0.001 });
          return relative(fit.conductionLength, length) < 1e-6 && fit.residualDeviation === null;
        },
      ),
      { seed: 3, numRuns: 200 },
    );
  });

  it("refuses what no exponential describes", () => {
    expect(() => fitStemConduction(depths.slice(0, 2), { planned: 300, limit: 0.001 })).toThrow(
      /at least 3 different depths/,
    );
    expect(() =>
      fitStemConduction(
        depths.map(({ depth }) => ({ depth, reading: 1 })),
        { planned: 300, limit: 0.001 },
      ),
    ).toThrow(/do not change with depth/);
    expect(() =>
      fitStemConduction(
        depths.map(({ depth }) => ({ depth, reading: depth * 1e-5 })),
        { planned: 300, limit: 0.001 },
      ),
    ).toThrow(/fall off exponentially/);
    expect(() => errorFromTwoWithdrawals(-4, -3, 10)).toThrow(/immersion\.second/);
  });
});

// Law and formulae: e(L) = A·exp(−L/ℓ), so that withdrawing by h changes the reading by e·(exp(h/ℓ) − 1).
describe("withdrawal by 10 mm (common practice)", () => {
  const base = { depth: 320, withdrawn: 10, before: -0.0021, limit: 0.001 };
  const readings = (error: number, length: number) => ({
    before: error,
    after: error * Math.exp(10 / length),
    again: error * Math.exp(20 / length),
  });

  // 4·(exp(10/ℓ) − 1): a change of 1.967, 1.523, 1.136 and 0.725 mK hides an error of 4 mK.
  it.each([15, 25, 31, 40, 60])("is never taken for less than the true error, 4 mK at ℓ = %d mm", (length) => {
    for (const error of [0.004, -0.004]) {
      const { before, after, again } = readings(error, length);
      const known = { ...base, before, after, limit: 0.1 };
      const enough = 0.004 * (1 - 1e-12);
      const one = evaluateWithdrawal(known);
      expect(Math.abs(one.change)).toBeCloseTo(0.004 * Math.expm1(10 / length), 12);
      expect(one.lengthFrom).toBe("longest usual");
      expect(one.halfWidth).toBeGreaterThanOrEqual(enough);
      for (const found of [
        evaluateWithdrawal({ ...known, conductionLength: length }),
        evaluateWithdrawal({ ...known, again }),
      ]) {
        expect(found.error).toBeCloseTo(error, 11);
        expect(found.conductionLength).toBeCloseTo(length, 7);
        expect(found.halfWidth).toBeGreaterThanOrEqual(0.004 * (1 - 1e-9));
      }
    }
  });

  it("carries the uncertainty of the change, and of the decay length, into the error (JCGM 100, 5.1.2; derivatives by differences)", () => {
    const { before, after, again } = readings(-0.004, 31);
    const u = 0.0002;
    const error = (change: Partial<Parameters<typeof evaluateWithdrawal>[0]>): number =>
      evaluateWithdrawal({ ...base, limit: 0.1, before, after, ...change }).error;
    const step = 1e-7;
    const slope = (name: "before" | "after" | "again", others: object): number =>
      (error({ ...others, [name]: { before, after, again }[name] + step }) -
        error({ ...others, [name]: { before, after, again }[name] - step })) /
      (2 * step);
    const length = { conductionLength: 31, conductionLengthUncertainty: 4 };
    const byLength = (error({ conductionLength: 31.001 }) - error({ conductionLength: 30.999 })) / 0.002;
    const one = evaluateWithdrawal({ ...base, limit: 0.1, before, after, standardUncertainty: u, ...length });
    // Readings of u/√2 each.
    const reading = (names: readonly ("before" | "after" | "again")[], others: object): number =>
      Math.hypot(...names.map((name) => (slope(name, others) * u) / Math.SQRT2));
    expect(one.standardUncertainty!).toBeCloseTo(
      Math.hypot(reading(["before", "after"], { conductionLength: 31 }), byLength * 4),
      8,
    );
    expect(one.halfWidth).toBeCloseTo(Math.abs(one.error) + 2 * one.standardUncertainty!, 12);
    const two = evaluateWithdrawal({ ...base, limit: 0.1, before, after, again, standardUncertainty: u });
    expect(relative(two.standardUncertainty!, reading(["before", "after", "again"], { again }))).toBeLessThan(1e-4);
  });

  it("passes if the error, not the change, lies within the limit", () => {
    const found = evaluateWithdrawal({ ...base, after: -0.0029, conductionLength: 10, standardUncertainty: 0.0001 });
    // 0.8 mK/(e − 1).
    expect(found).toMatchObject({ passed: true, error: expect.closeTo(-0.0008 / (Math.E - 1), 12) });
    expect(found.checks.every(({ passed }) => passed)).toBe(true);
    expect(withdrawalStatement(found, { ...base, after: -0.0029 })).toMatchObject({
      distribution: "rectangular",
      estimate: 0,
      source: "withdrawn by 10 mm at 320 mm depth, decay length 10 mm (stated)",
    });
    expect(evaluateWithdrawal({ ...base, after: -0.0029 }).passed).toBe(false);
  });

  it("fails a larger change, a shallow probe, and a change too poorly known", () => {
    const found = evaluateWithdrawal({ ...base, depth: 250, after: -0.005, standardUncertainty: 0.0008 });
    expect(found.checks.map(({ passed }) => passed)).toEqual([false, false, false]);
    expect(found.reasoning.at(-1)).toContain("immerse deeper");
  });

  it("refuses a decay length beside a second withdrawal, and a second that changes less than the first", () => {
    expect(() => evaluateWithdrawal({ ...base, after: -0.003, again: -0.005, conductionLength: 30 })).toThrow(
      /immersion\.conductionLength: got 30/,
    );
    expect(() => evaluateWithdrawal({ ...base, after: -0.003, again: -0.0035 })).toThrow(/immersion\.second/);
  });

  it.each([
    [{ depth: 0 }, /immersion\.depth: got 0/],
    [{ withdrawn: 400 }, /immersion\.withdrawn: got 400/],
    [{ limit: 0 }, /immersion\.limit/],
    [{ before: Number.NaN }, /immersion\.before: got NaN/],
  ] as const)("refuses %j", (change, message) => {
    expect(() => evaluateWithdrawal({ ...base, after: 0, ...change })).toThrow(message);
  });
});

describe("immersion description", () => {
  it("is stated by the fit if there is one, else by the withdrawal", () => {
    const withdrawal = { depth: 320, before: -0.002, after: -0.003 };
    const only = readDocument(immersionSchema, { title: "t", planned: 320, limit: 0.004, withdrawal });
    expect(immersionStatement(evaluateImmersion(only), only)).toMatchObject({
      // 1 mK/(exp(1/6) − 1): the decay length is not known.
      halfWidth: expect.closeTo(0.001 / Math.expm1(10 / 60), 12),
    });
    const both = {
      ...only,
      depths: [180, 220, 260].map((depth) => ({ depth, reading: -0.09 * Math.exp((180 - depth) / 30) })),
    };
    const fitted = evaluateImmersion(both);
    expect(fitted.withdrawal).toMatchObject({ lengthFrom: "stated", conductionLength: expect.closeTo(30, 6) });
    expect(immersionStatement(fitted, both)).toMatchObject({
      halfWidth: expect.closeTo(0.09 * Math.exp(-140 / 30), 8),
    });
    const neither = readDocument(immersionSchema, { title: "t", planned: 320, limit: 0.004 });
    expect(() => evaluateImmersion(neither)).toThrow(/a withdrawal, or readings/);
  });
});
