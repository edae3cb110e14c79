import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../../engine/index.ts";
import * as iec from "../../../models/platinum/iec60751.ts";
import reference from "../../reference/platinum.json" with { type: "json" };

const table = reference["iec60751-table"].values.rows;

describe("R(t) by IEC 60751", () => {
  it("gives every ten-degree value of the standard's table to its last printed digit", () => {
    // IEC 60751:2008 and 2022, table of resistance values, R0 = 100 Ω: 106 values, two decimals.
    expect(table).toHaveLength(106);
    for (const [t, printed] of table) expect([t, iec.resistance(t!).toFixed(2)]).toEqual([t, printed!.toFixed(2)]);
  });

  it("gives the exact values and the slope", () => {
    // The equation of IEC 60751, 4.2 in 40-digit arithmetic; 1e-10 Ω is the precision of the figures.
    for (const [t, , exact, slope] of table) {
      expect(Math.abs(iec.resistance(t!) - exact!)).toBeLessThan(1e-10);
      expect(Math.abs(iec.resistanceSlope(t!) - slope!)).toBeLessThan(1e-9);
    }
    for (const [t, exact] of reference["iec60751-forward-exact"].values.rows) {
      expect(Math.abs(iec.resistance(t!) - exact!)).toBeLessThan(1e-10);
    }
  });

  it("does not follow the curve of 1983", () => {
    // IEC 751:1983 prints 175.84 Ω at 200 °C, on IPTS-68: still in circulation.
    expect(iec.resistance(200).toFixed(2)).toBe("175.86");
  });

  it.each([10, 50, 500, 1000])("scales with a nominal resistance of %d Ω", (nominal) => {
    expect(iec.resistance(134, nominal)).toBeCloseTo((nominal / 100) * 151.334261, 9);
    expect(iec.temperature(iec.resistance(-77, nominal), nominal)).toBeCloseTo(-77, 10);
  });
});

describe("t(R) by IEC 60751", () => {
  it("gives the exact inverse to 1e-9 °C", () => {
    // 40-digit Newton on the equation of IEC 60751, checked by substitution; figures have 12 to 13 digits.
    for (const [R, exact] of reference["iec60751-inverse"].values.rows) {
      expect(Math.abs(iec.temperature(R!) - exact!)).toBeLessThan(1e-9);
    }
  });

  it("starts below 0 °C from a polynomial within 1.7 mK", () => {
    // ASTM E1137/E1137M-08, inverse equation: stated within 2 mK; largest error 1.668 mK near −179 °C.
    let worst = 0;
    for (let t = -200; t < 0; t += 0.1)
      worst = Math.max(worst, Math.abs(iec.startBelowZero(iec.resistanceRatio(t) - 1) - t));
    expect(worst).toBeGreaterThan(0.00166);
    expect(worst).toBeLessThan(0.00168);
  });

  it("closes the round trip below 1e-10 °C everywhere", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -200, max: 850, noNaN: true }),
        (t) => Math.abs(iec.temperatureOf(iec.resistanceRatio(t)) - t) < 1e-10,
      ),
      { seed: 60751, numRuns: 5000 },
    );
  });

  it("rises with the ratio, across 0 °C too", () => {
    const ratios = [-1e-9, -1e-12, -1e-15, 0, 1e-15, 1e-12, 1e-9].map((x) => 1 + x);
    const temperatures = ratios.map(iec.temperatureOf);
    expect(temperatures).toEqual(temperatures.toSorted((a, b) => a - b));
    expect(iec.temperatureOf(1)).toBe(0);
  });

  it("converts many at once to identical bits", () => {
    const ratios = Float64Array.from({ length: 200 }, (_, i) => 0.2 + i * 0.018);
    expect([...iec.temperaturesOf(ratios, new Float64Array(200))]).toEqual([...ratios].map(iec.temperatureOf));
    expect(() => iec.temperaturesOf(ratios, new Float64Array(3))).toThrow(
      /out: got 3; expected an array of at least 200/,
    );
  });
});

describe("outside the standard", () => {
  it.each([
    [() => iec.resistance(-200.1), /t: got -200.1; expected a temperature from -200 °C to 850 °C/],
    [() => iec.resistance(850.1), /t: got 850.1/],
    [() => iec.resistance(Number.NaN), /t: got NaN/],
    [() => iec.temperature(18.5), /R: got 18.5; expected a resistance from 18.5201 Ω to 390.481 Ω/],
    [() => iec.temperature(391), /R: got 391/],
    [() => iec.temperature(100, 0), /R0: got 0; expected a resistance greater than 0 Ω/],
    [() => iec.resistance(20, -100), /R0: got -100/],
  ])("refuses %s", (call, message) => {
    expect(call).toThrow(InputError);
    expect(call).toThrow(message);
  });

  it("gives NaN in the inner loop, and takes the ends themselves", () => {
    expect(iec.temperatureOf(0.185)).toBeNaN();
    expect(iec.temperatureOf(3.91)).toBeNaN();
    expect(iec.temperatureOf(Number.NaN)).toBeNaN();
    expect(iec.temperature(18.52008)).toBeCloseTo(-200, 9);
    expect(iec.temperature(390.481125)).toBeCloseTo(850, 9);
  });
});
