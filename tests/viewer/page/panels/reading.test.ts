import { describe, expect, test } from "vitest";
import { csvText } from "../../../../viewer/present/csv.ts";
import { ellipsePoints } from "../../../../viewer/present/pictures/pair.ts";
import { readable } from "../../../../viewer/present/readable.ts";
import { unitsFor } from "../../../../viewer/present/units.ts";
import { changed, readReading, writeReading } from "../../../../viewer/page/reading.ts";
import { RECORDS } from "../fixed-records.ts";

test("a reading survives the address", () => {
  const reading = { digits: "1", unit: "m°C", tries: "bathAxial:normal:0.5 x:stated:2" };
  expect(readReading(`#run=r1&measurand=error${writeReading(reading)}`)).toEqual(reading);
  expect(readReading("#study=a&digits=1")).toEqual({});
  expect(changed(reading, { digits: null, p: "0.9" })).toEqual({ unit: reading.unit, tries: reading.tries, p: "0.9" });
});

describe("units", () => {
  test("a difference of temperatures is scaled, a temperature is moved", () => {
    expect(
      unitsFor({ symbol: "e", meaning: "error of the probe", unit: "°C", difference: true }).map(
        ({ unit, factor, offset }) => [unit, factor, offset],
      ),
    ).toEqual([
      ["°C", 1, 0],
      ["mK", 1000, 0],
      ["K", 1, 0],
    ]);
    // SI Brochure, 9th edition, 2.3.1: t/°C = T/K − 273.15.
    expect(
      unitsFor({ symbol: "t", meaning: "temperature of the medium at the probe", unit: "°C", difference: false }).map(
        ({ unit, factor, offset }) => [unit, factor, offset],
      ),
    ).toEqual([
      ["°C", 1, 0],
      ["K", 1, 273.15],
    ]);
    expect(unitsFor({ symbol: "F", meaning: "time", unit: "min" })).toHaveLength(1);
    // Neither is known: an error of 0.024 °C is not 273.174 K.
    expect(unitsFor({ symbol: "y", meaning: "sum of the terms", unit: "°C" })).toHaveLength(1);
  });

  test("in kelvin a temperature's interval moves, and what measures distances stays", () => {
    const own = {
      ...RECORDS["harrowfen/pasteuriser-72"]!.measurands.error!,
      symbol: "t",
      meaning: "temperature of the medium",
      difference: false,
    };
    const kelvin = readable(own, "K");
    expect(kelvin.linear.estimate).toBeCloseTo(own.linear.estimate + 273.15, 10);
    expect(kelvin.monteCarlo.intervals.symmetric[0]).toBeCloseTo(own.monteCarlo.intervals.symmetric[0] + 273.15, 10);
    expect(kelvin.linear.standardUncertainty).toBe(own.linear.standardUncertainty);
    expect(kelvin.validation.dLow).toBe(own.validation.dLow);
    expect(kelvin.monteCarlo.histogram.width).toBe(own.monteCarlo.histogram.width);
    expect(kelvin.explanation!.difference).toEqual(own.explanation!.difference);
  });
});

test("a table as CSV has plain numbers", () => {
  expect(
    csvText([
      ["a", "b, c"],
      ["\u22120.50", "1\u202f000\u202f000"],
      ['say "so"', "2 to 3"],
    ]),
  ).toBe('a,"b, c"\r\n-0.50,1000000\r\n"say ""so""",2 to 3\r\n');
});

test("every point of a drawn ellipse has the factor's distance from the centre", () => {
  const covariance = [4, 1.2, 0.81] as const;
  const [v1, c, v2] = covariance;
  for (const [a, b] of ellipsePoints({ centre: [3, -1], covariance, factor: 2.45 })) {
    const [x, y] = [a - 3, b + 1];
    // xᵀ U⁻¹ x, written out for two quantities.
    expect((v2 * x * x - 2 * c * x * y + v1 * y * y) / (v1 * v2 - c * c)).toBeCloseTo(2.45 ** 2, 10);
  }
});
