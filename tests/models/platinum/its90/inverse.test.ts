import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { approximateInverse, referenceTemperature, temperatureOf } from "../../../../models/platinum/its90/inverse.ts";
import { referenceRatio } from "../../../../models/platinum/its90/reference-function.ts";
import computed from "../../../reference/platinum-computed.json" with { type: "json" };
import reference from "../../../reference/platinum.json" with { type: "json" };

const { rows, scan } = reference["its90-inverse-roundtrip"].values;

function worst(inverse: (Wr: number) => number, from: number, to: number): number {
  let largest = 0;
  for (let i = 0; i <= 20_000; i++) {
    const T = from + ((to - from) * i) / 20_000;
    largest = Math.max(largest, Math.abs(inverse(referenceRatio(T)) - T));
  }
  return largest;
}

describe("approximate inverses, equations (9b) and (10b) (Metrologia 27 (1990) 3–10)", () => {
  it.each(rows)("at %f °C", (t, _, approximate) => {
    // 40-digit arithmetic; figures to 12 digits. At the triple point of water the two branches are 1.3 µK apart.
    const tolerance = Math.abs(t! - 0.01) < 1e-6 ? 2e-6 : 1e-8;
    expect(Math.abs(approximateInverse(referenceRatio(t! + 273.15)) - 273.15 - approximate!)).toBeLessThan(tolerance);
  });

  it("stay within 0.1 mK below 273.16 K, as stated", () => {
    expect(worst(approximateInverse, 13.8033, 273.15999)).toBeLessThan(1e-4);
    expect(worst(approximateInverse, 13.8033, 273.15999) * 1000).toBeCloseTo(scan.low.max_abs_error_mK, 5);
  });

  it("stay within 0.135 mK above, just over the stated 0.13 mK", () => {
    // The published coefficients reach 0.13414 mK near 861 °C: 40-digit scan.
    expect(worst(approximateInverse, 273.16, 1234.93)).toBeLessThan(1.35e-4);
    expect(worst(approximateInverse, 273.16, 1234.93) * 1000).toBeCloseTo(scan.high.max_abs_error_mK, 5);
    expect(worst(approximateInverse, 273.16, 933.473) * 1000).toBeCloseTo(scan.high_to_Al.max_abs_error_mK, 4);
  });
});

describe("exact inverse", () => {
  it("closes T → W_r → T below 1e-10 K over the whole range", () => {
    expect(worst(temperatureOf, 13.8033, 273.15999)).toBeLessThan(1e-10);
    expect(worst(temperatureOf, 273.16, 1234.93)).toBeLessThan(1e-10);
    fc.assert(
      fc.property(
        fc.double({ min: 13.8033, max: 1234.93, noNaN: true }),
        (T) => Math.abs(temperatureOf(referenceRatio(T)) - T) < 1e-10,
      ),
      { seed: 1990, numRuns: 5000 },
    );
  });

  it("gives t of W_r from 50-digit arithmetic", () => {
    // platinum.py; W_r is rounded to 1e-16 relative, t + 273.15 to 6e-14.
    for (const [t, Wr] of computed.referenceFunction)
      expect(Math.abs(temperatureOf(Wr!) - (t! + 273.15))).toBeLessThan(1e-10);
  });

  it("gives the table back", () => {
    for (const [t, Wr] of reference["its90-wr-table"].values.rows) {
      // The table has 13 digits: 5e-13 above W = 1, where dT/dW is at most 352 K.
      expect(Math.abs(temperatureOf(Wr!) - (t! + 273.15))).toBeLessThan(2e-10);
    }
  });

  it("is continuous and never falls where the branches meet", () => {
    const ratios = Array.from({ length: 400 }, (_, i) => 0.99999998 + i * 1e-10);
    const temperatures = ratios.map(temperatureOf);
    for (let i = 1; i < temperatures.length; i++) {
      expect(temperatures[i]!).toBeGreaterThanOrEqual(temperatures[i - 1]!);
      // A step of 1e-10 in W_r is 2.5e-8 K.
      expect(temperatures[i]! - temperatures[i - 1]!).toBeLessThan(2.6e-8);
    }
    expect(temperatureOf(0.999999993)).toBe(273.16);
    expect(temperatureOf(1)).toBeGreaterThan(273.16);
    expect(Math.abs(temperatureOf(1) - 273.16)).toBeLessThan(2e-6);
  });

  it("refuses what platinum does not reach on the scale", () => {
    expect(() => referenceTemperature(0.001)).toThrow(
      /Wr: got 0.001; expected a ratio from 0.0011900681 to 4.28642053, ITS-90 from 13.8033 K to 1234.93 K/,
    );
    expect(() => referenceTemperature(4.3)).toThrow(/Wr: got 4.3/);
    expect(() => referenceTemperature(Number.NaN)).toThrow(/Wr: got NaN/);
    expect(temperatureOf(-1)).toBeNaN();
    expect(temperatureOf(0.001)).toBeNaN();
    expect(approximateInverse(5)).toBeNaN();
    expect(referenceTemperature(referenceRatio(13.8033))).toBeCloseTo(13.8033, 9);
    expect(referenceTemperature(referenceRatio(1234.93))).toBeCloseTo(1234.93, 9);
  });
});
