import * as fc from "fast-check";
import { Matrix, solve } from "ml-matrix";
import { describe, expect, it } from "vitest";
import { acceptance } from "../../../../models/platinum/its90/acceptance.ts";
import { deviationCoefficients, solveInPlace } from "../../../../models/platinum/its90/deviation-coefficients.ts";
import { fixedPoints, type FixedPointName } from "../../../../models/platinum/its90/fixed-points.ts";
import {
  coefficientNames,
  deviation,
  deviationSlope,
  subRangeOf,
  subRanges,
  type SubRange,
} from "../../../../models/platinum/its90/sub-ranges.ts";
import { ratioAt, standardTemperature, temperatureFromRatio } from "../../../../models/platinum/its90/thermometer.ts";
import reference from "../../../reference/platinum.json" with { type: "json" };

const all = Object.values(subRanges);

/** Coefficients of a thermometer that the scale would accept; powers of ln W reach 6.7⁷ at 13.8 K, so theirs are small. */
const plausible = (subRange: SubRange): number[] =>
  coefficientNames(subRange).map((name) => {
    const i = Number(name.slice(1)) + (subRange.number === "1" ? 2 : 0);
    return i > 0 ? 1e-5 / 7 ** i : { a: -2.4e-4, b: -1.2e-5, c: 1.5e-6, d: 2e-6, ratioAtAl: 3.3754 }[name]!;
  });

describe("sub-ranges (Metrologia 27 (1990) 3–10, table 5)", () => {
  it.each(reference["its90-subranges"].values.rows)("$number: limits, clause, points and unknowns", (row) => {
    const found = subRangeOf(row.number);
    const names: Record<string, string> = { "e-H2": "H2", "e-H2 17 K": "H2_17K", "e-H2 20.3 K": "H2_20K" };
    expect(found).toMatchObject({ clause: row.clause, low: row.T_low_K, high: row.T_high_K });
    expect(new Set(found.points)).toEqual(new Set(row.points.filter((p) => p !== "H2O").map((p) => names[p] ?? p)));
    expect(coefficientNames(found).filter((name) => name !== "ratioAtAl")).toEqual(row.unknowns);
    expect(found.points).toHaveLength(row.unknowns.length);
  });

  it("have the terms of their equations", () => {
    const [W, L] = [0.5, Math.log(0.5)];
    const unit = (number: string, k: number): number =>
      deviation(
        subRangeOf(number),
        coefficientNames(subRangeOf(number)).map((_, i) => (i === k ? 1 : 0)),
        W,
      );
    expect(unit("1", 0)).toBeCloseTo(W - 1, 14);
    expect(unit("1", 1)).toBeCloseTo((W - 1) ** 2, 14);
    for (const i of [1, 2, 3, 4, 5]) expect(unit("1", i + 1)).toBeCloseTo(L ** (i + 2), 14);
    for (const i of [1, 2, 3]) expect(unit("2", i + 1)).toBeCloseTo(L ** i, 14);
    expect(unit("3", 2)).toBeCloseTo(L ** 2, 14);
    expect(unit("4", 1)).toBeCloseTo((W - 1) * L, 14);
    expect(unit("7", 2)).toBeCloseTo((W - 1) ** 3, 14);
    expect(deviation(subRanges["6"], [0, 0, 0, 1, 3.3], 4)).toBeCloseTo(0.49, 14);
    expect(deviation(subRanges["6"], [0, 0, 0, 1, 3.3], 3.2)).toBe(0);
  });

  it("have the slopes that differences give", () => {
    for (const subRange of all) {
      const c = plausible(subRange);
      for (const W of [0.3, 0.9, 1.7, 3.9]) {
        const h = 1e-5;
        const difference = (deviation(subRange, c, W + h) - deviation(subRange, c, W - h)) / (2 * h);
        expect(Math.abs(difference - deviationSlope(subRange, c, W))).toBeLessThan(1e-10);
      }
    }
  });
});

describe("invented thermometers worked in 40-digit arithmetic", () => {
  it.each(reference["its90-synthetic-sprts"].values)("$name: coefficients, W and t", (row) => {
    const subRange = subRangeOf(row.subrange);
    const points = Object.fromEntries(
      row.fixed_points.rows
        .filter(([name]) => (subRange.points as readonly unknown[]).includes(name))
        .map(([name, W]) => [name, W as number]),
    );
    const found = deviationCoefficients(subRange, points);
    // The W have 15 digits; a deviation of 1e-4 keeps 1e-15/1e-5 of them for b and c.
    Object.values(row.coefficients).forEach((value, k) => expect(Math.abs(found[k]! / value! - 1)).toBeLessThan(1e-7));
    const exact = Object.values(row.coefficients) as number[];
    for (const [t, W, R, , dev] of row.rows) {
      expect(Math.abs(ratioAt(subRange, exact, t! + 273.15) - W!)).toBeLessThan(1e-11);
      expect(Math.abs(deviation(subRange, exact, W!) - dev!)).toBeLessThan(1e-12);
      const thermometer = { subRange, coefficients: exact, triplePointResistance: row.R_TPW_ohm };
      expect(Math.abs(standardTemperature(thermometer, R!) - t!)).toBeLessThan(1e-8);
    }
  });
});

describe("a thermometer of every sub-range", () => {
  it.each(all)("$number: fixed points → coefficients → t closes", (subRange) => {
    // The W(Al) of sub-range 6 is the thermometer's own.
    const given = plausible(subRange);
    if (subRange.aboveAluminium) given[4] = ratioAt(subRange, given, fixedPoints.Al.temperature);
    const measured = Object.fromEntries(
      subRange.points.map((name) => [name, ratioAt(subRange, given, fixedPoints[name].temperature)]),
    ) as Record<FixedPointName, number>;
    const found = deviationCoefficients(subRange, measured);
    fc.assert(
      fc.property(fc.double({ min: subRange.low, max: subRange.high, noNaN: true }), (T) => {
        const W = ratioAt(subRange, given, T);
        return (
          Math.abs(temperatureFromRatio(subRange, given, W) - T) < 1e-10 &&
          Math.abs(temperatureFromRatio(subRange, found, W) - T) < 1e-8
        );
      }),
      { seed: 5, numRuns: 300 },
    );
  });

  it("takes realised temperatures for the hydrogen points near 17 K and 20.3 K", () => {
    const subRange = subRanges["1"];
    const given = plausible(subRange);
    const realised = { H2_17K: 17.0357, H2_20K: 20.2714 };
    const at = (name: FixedPointName): number =>
      ratioAt(
        subRange,
        given,
        (realised as Partial<Record<FixedPointName, number>>)[name] ?? fixedPoints[name].temperature,
      );
    const measured = Object.fromEntries(subRange.points.map((name) => [name, at(name)]));
    const found = deviationCoefficients(subRange, measured, realised);
    // Seven unknowns on seven points: conditioning costs some six digits of the coefficients.
    given.forEach((value, k) => expect(Math.abs(found[k]! / value - 1)).toBeLessThan(1e-5));
  });
});

describe("small linear systems", () => {
  it("solve as the library does", () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 20, maxLength: 20 }), (values) => {
        const rows = [0, 1, 2, 3].map((i) => values.slice(i * 4, i * 4 + 4).map((v, j) => v + (i === j ? 3 : 0)));
        const right = values.slice(16);
        const expected = solve(new Matrix(rows), Matrix.columnVector(right)).to1DArray();
        const x = Float64Array.from(right);
        return (
          solveInPlace(Float64Array.from(rows.flat()), x, 4) &&
          expected.every((value, i) => Math.abs(value - x[i]!) < 1e-13)
        );
      }),
      { seed: 4, numRuns: 500 },
    );
  });

  it("exchange rows, and tell when there is no solution", () => {
    const x = Float64Array.from([1, 2]);
    expect(solveInPlace(Float64Array.from([0, 1, 1, 0]), x, 2)).toBe(true);
    expect([...x]).toEqual([2, 1]);
    expect(solveInPlace(Float64Array.from([1, 1, 1, 1]), Float64Array.from([1, 2]), 2)).toBe(false);
  });
});

describe("acceptance (Metrologia 27 (1990) 3–10, 3.3, equations (8a) to (8c))", () => {
  it.each(reference["its90-acceptance"].values.cases)("%o", (row) => {
    const measured = { Ga: row.WGa, Hg: row.WHg, Ag: row.WAg };
    expect(acceptance(measured).accepted).toBe(row.pass_to_Al);
    if (row.pass_to_Ag !== undefined) expect(acceptance(measured, true).accepted).toBe(row.pass_to_Ag);
  });

  it("needs at least one measurement, and silver for use up to silver", () => {
    expect(acceptance({})).toEqual({ accepted: false, reason: "neither W(Ga) nor W(Hg) was measured" });
    expect(acceptance({ Ga: 1.1181 }, true)).toEqual({
      accepted: false,
      reason: "W(Ga) = 1.1181 is at least 1.11807; W(Ag) was not measured",
    });
  });
});

describe("bad input", () => {
  const eight = subRanges["8"];
  const thermometer = { subRange: eight, coefficients: [-2.3e-4, -1e-5], triplePointResistance: 25.512345 };
  it.each([
    [() => subRangeOf("12"), /subRange: got "12"; expected a sub-range of ITS-90 from "1" to "11"/],
    [
      () => deviationCoefficients(eight, { Sn: 1.8925 }),
      /W.Zn: got nothing; expected a ratio to R\(273.16 K\) within 0.0094 of 2.56891730/,
    ],
    [() => deviationCoefficients(eight, { Sn: 0.2, Zn: 2.5685 }), /W.Sn: got 0.2/],
    [
      () => deviationCoefficients(eight, { Sn: 1.8925, Zn: 2.5685, Al: 3.3754 }),
      /W.Al: got 3.3754; expected nothing there: sub-range 8 has the points Sn, Zn/,
    ],
    [
      () => standardTemperature(thermometer, 70),
      /R: got 70; expected a resistance with R\/R\(273.16 K\) from 0.99996\d to 2.56853\d, sub-range 8 of ITS-90 from 273.15 K to 692.677 K/,
    ],
    [() => standardTemperature(thermometer, 20), /R: got 20/],
    [() => standardTemperature(thermometer, -1), /R: got -1; expected a resistance greater than 0 Ω/],
    [() => standardTemperature({ ...thermometer, triplePointResistance: 0 }, 30), /triplePointResistance: got 0/],
    [
      () => standardTemperature({ ...thermometer, coefficients: [-2e-4] }, 30),
      /coefficients: got 1; expected 2 numbers for sub-range 8: a, b/,
    ],
  ])("%#", (call, message) => expect(call).toThrow(message));

  it("gives NaN in the inner loop well outside, not slightly outside", () => {
    expect(temperatureFromRatio(eight, [0, 0], 2.58)).toBeNaN();
    expect(temperatureFromRatio(eight, [0, 0], -1)).toBeNaN();
    expect(temperatureFromRatio(eight, [0, 0], 2.569)).toBeCloseTo(692.7007, 3);
  });
});
