// The fit of a deviation function of ITS-90: invented thermometers of tests/reference/platinum.json ("its90-synthetic-sprts",
// computed independently) come back from their resistances; the fit of every trial is that of the result.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { DeviationRefit, fitDeviation, slopeOf } from "../../../../models/platinum/its90/deviation-fit.ts";
import { coefficientNames, subRangeOf, subRanges } from "../../../../models/platinum/its90/sub-ranges.ts";

interface Thermometer {
  readonly name: string;
  readonly subrange: string;
  readonly R_TPW_ohm: number;
  readonly coefficients: Readonly<Record<string, number>>;
  readonly rows: readonly (readonly [t: number, W: number, R: number, slope: number, departure: number])[];
}
const { values } = (
  JSON.parse(readFileSync(join(import.meta.dirname, "../../../reference/platinum.json"), "utf8")) as {
    readonly "its90-synthetic-sprts": { readonly values: readonly Thermometer[] };
  }
)["its90-synthetic-sprts"];

const fitted = values.filter(({ subrange }) => subrange !== "6" && Object.hasOwn(subRanges, subrange));
/** The tabulated temperatures that lie in the sub-range, and the triple point of water. */
const pointsOf = ({ subrange, R_TPW_ohm, rows }: Thermometer) => {
  const { low, high } = subRangeOf(subrange);
  return [
    { temperature: 0.01, resistance: R_TPW_ohm },
    ...rows
      .filter(([t]) => t + 273.15 >= low && t + 273.15 <= high && Math.abs(t - 0.01) > 1e-6)
      .map(([temperature, , resistance]) => ({ temperature, resistance })),
  ];
};

describe("thermometers that are known", () => {
  test("are some of every kind", () => {
    expect(fitted.map(({ subrange }) => subrange)).toEqual(expect.arrayContaining(["4", "7", "8"]));
  });

  test.each(fitted)("$name: R(0.01 °C) and the coefficients", (thermometer) => {
    const subRange = subRangeOf(thermometer.subrange);
    const points = pointsOf(thermometer);
    const { parameters, residuals } = fitDeviation(points, subRange);
    // At 0.01 °C the branches of the reference function are 5.3e-9 apart, 1.3 µK, and neither is 1.
    expect(Math.abs(parameters[0]! / thermometer.R_TPW_ohm - 1)).toBeLessThan(5.3e-9);
    coefficientNames(subRange).forEach((name, k) =>
      expect(Math.abs(parameters[k + 1]! - thermometer.coefficients[name]!)).toBeLessThan(5e-8),
    );
    expect(Math.max(...residuals.map(Math.abs))).toBeLessThan(2 * 5.3e-9 * thermometer.R_TPW_ohm);
    thermometer.rows.forEach(([t, , , slope]) => {
      if (t + 273.15 < subRange.low || t + 273.15 > subRange.high) return;
      expect(Math.abs(slopeOf(subRange, parameters, t) / (thermometer.R_TPW_ohm * slope) - 1)).toBeLessThan(1e-7);
    });
    const refit = new DeviationRefit(points.length, subRange, null);
    refit.temperatures.set(points.map(({ temperature }) => temperature));
    refit.resistances.set(points.map(({ resistance }) => resistance));
    expect(refit.solve()).toBe(true);
    expect([...refit.parameters]).toEqual(parameters);
  });
});

test.each([
  ["a point outside the sub-range", "8", [0.01, 100, 450], /points\.2\.temperature.*0 °C to 419\.527 °C/s],
  ["too few points", "7", [0.01, 100, 200], /points.*at least 4 points for Rtp, a, b, c/s],
  ["sub-range 6", "6", [0.01, 100, 200, 300, 400], /subRange.*other than 6/s],
  ["points at one temperature", "8", [50, 50, 50], /points.*determine Rtp, a, b/s],
])("%s is refused", (_, subRange, temperatures, message) => {
  const points = temperatures.map((temperature) => ({ temperature, resistance: 25 + 0.1 * temperature }));
  expect(() => fitDeviation(points, subRangeOf(subRange))).toThrow(message);
});
