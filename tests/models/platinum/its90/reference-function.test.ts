import { describe, expect, it } from "vitest";
import {
  A,
  C,
  derivativeOf,
  polynomial,
  referenceRatio,
  referenceSlope,
} from "../../../../models/platinum/its90/reference-function.ts";
import { B, D } from "../../../../models/platinum/its90/inverse.ts";
import { fixedPoint, fixedPoints, type FixedPointName } from "../../../../models/platinum/its90/fixed-points.ts";
import computed from "../../../reference/platinum-computed.json" with { type: "json" };
import reference from "../../../reference/platinum.json" with { type: "json" };

const ITS90 = "Metrologia 27 (1990) 3–10, erratum 27, 107";

describe(`coefficients (${ITS90}, table 4)`, () => {
  it("are the published figures, all 51", () => {
    const { values } = reference["its90-reference-coefficients"];
    expect({ A, B, C, D }).toEqual({ A: values.A, B: values.B, C: values.C, D: values.D });
  });

  it("are not the misprints in circulation", () => {
    // A5 = −0.61893395 shifts Hg by 7.3 mK; B2 = 0.209108711 the inverse by up to 0.02 mK.
    expect(A[5]).toBe(-0.61899395);
    expect(B[2]).toBe(0.209108771);
  });
});

describe(`W_r at the fixed points (${ITS90}, table 1)`, () => {
  const rows = reference["its90-fixed-points"].values.rows.filter(({ Wr_published }) => Wr_published !== undefined);

  it.each(rows)(
    "$point: to the published 8 decimals",
    ({ point, T90_K, t90_C, Wr_published, Wr_computed, dWr_dT_per_K }) => {
      const name = (point === "e-H2" ? "H2" : point) as FixedPointName;
      // Half a unit of the eighth decimal; the largest difference is 0.485e-8, at Hg.
      expect(Math.abs(referenceRatio(T90_K) - Wr_published!)).toBeLessThan(5e-9);
      expect(Math.abs(referenceRatio(T90_K) - Wr_computed!)).toBeLessThan(1e-13);
      expect(Math.abs(referenceSlope(T90_K) / dWr_dT_per_K! - 1)).toBeLessThan(1e-9);
      expect(fixedPoints[name]).toMatchObject({ temperature: T90_K, referenceRatio: Wr_published });
      expect(T90_K - 273.15).toBeCloseTo(t90_C, 9);
    },
  );

  it("follow the branch rule: lower below 273.16 K, upper from there on", () => {
    // 40-digit arithmetic: at 273.16 K the branches are 0.99999999000 and 0.99999999535.
    const { join } = reference["its90-fixed-points"].values;
    expect(referenceRatio(273.16)).toBeCloseTo(join.Wr_high_at_273p16, 13);
    const below = 273.16 - 2 ** -43;
    expect(Math.abs(referenceRatio(below) - join.Wr_low_at_273p16)).toBeLessThan(1e-11);
    expect(Math.abs(referenceRatio(273.15) - join.Wr_low_at_273p15)).toBeLessThan(1e-13);
  });
});

describe("W_r over the range", () => {
  it("equals the reference-function table to 1e-11", () => {
    // 40-digit arithmetic from the published coefficients, −250 °C to 960 °C (form as in NIST Technical Note 1265).
    const { rows } = reference["its90-wr-table"].values;
    expect(rows).toHaveLength(122);
    for (const [t, Wr, slope] of rows) {
      expect(Math.abs(referenceRatio(t! + 273.15) - Wr!)).toBeLessThan(1e-11);
      expect(Math.abs(referenceSlope(t! + 273.15) / slope! - 1)).toBeLessThan(1e-8);
    }
  });

  it("equals 50-digit arithmetic between the table's points", () => {
    // platinum.py. W_r moves by 0.0043/K, T is rounded to 6e-14 K at most.
    for (const [t, Wr] of computed.referenceFunction)
      expect(Math.abs(referenceRatio(t! + 273.15) - Wr!)).toBeLessThan(2e-15 + 3e-15 * Wr!);
  });

  it("ends where the scale does", () => {
    expect(referenceRatio(13.6)).toBeNaN();
    expect(referenceRatio(1236)).toBeNaN();
    expect(referenceSlope(1236)).toBeNaN();
    expect(referenceRatio(Number.NaN)).toBeNaN();
    expect(referenceRatio(13.8033)).toBeGreaterThan(0);
  });
});

describe("polynomial by halves", () => {
  it("is Horner's to rounding", () => {
    for (const c of [[3], [1, 2], [1, -2, 3], [...A], [...B], [...C]]) {
      for (const x of [-1, -0.3, 0, 0.7, 1]) {
        const horner = c.reduceRight((sum, value) => sum * x + value, 0);
        // Each of up to 16 terms below 3 in size rounds once or twice.
        expect(Math.abs(polynomial(c)(x) - horner)).toBeLessThan(1e-14);
      }
    }
    expect(derivativeOf([5, 4, 3, 2])).toEqual([4, 6, 6]);
  });
});

describe(`fixed points (${ITS90}, table 2)`, () => {
  it("have the published effects of pressure and depth", () => {
    for (const [point, pressure, depth] of reference["its90-pressure-depth"].values.rows as [
      string,
      number,
      number,
    ][]) {
      const name = point === "e-H2" ? "H2" : point;
      if (!Object.hasOwn(fixedPoints, name)) continue; // Au and Cu are not for platinum.
      const found = fixedPoint(name);
      expect(found.perPressure! * 1e8).toBeCloseTo(pressure, 12);
      expect(found.perDepth! * 1e3).toBeCloseTo(depth, 12);
    }
  });

  it("are refused by another name", () => {
    expect(() => fixedPoint("Pb")).toThrow(/fixedPoint: got "Pb"; expected one of H2, /);
  });
});
