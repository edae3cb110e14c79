import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { conversionBetween, factorBetween, readUnit, unitProduct } from "../../../engine/units/unit.ts";

const factor = (from: string, to: string): number | null => factorBetween(readUnit(from)!, readUnit(to)!);

// SI brochure, 9th edition: prefixes (table 7), derived units in base units (table 4), compound units (5.4.1).
describe("factors between units", () => {
  test.each([
    ["mK", "K", 0.001],
    ["K", "mK", 1000],
    ["mK", "°C", 0.001],
    ["°C", "mK", 1000],
    ["m°C", "mK", 1],
    ["mΩ", "Ω", 0.001],
    ["Ω", "mΩ", 1000],
    ["kΩ", "MΩ", 0.001],
    ["µV", "mV", 0.001],
    ["μV", "µV", 1],
    ["uV", "µV", 1],
    ["V/A", "Ω", 1],
    ["mV/mA", "Ω", 1],
    ["N/m²", "Pa", 1],
    ["hPa", "mbar", 1],
    ["L", "dm³", 1],
    ["cm^3", "mL", 1],
    ["kg/m³", "g/cm³", 0.001],
    ["m/s", "mm/min", 60_000],
    ["h", "s", 3600],
    ["%", "ppm", 10_000],
    ["K/Ω", "mK/mΩ", 1],
    ["°C/Ω", "mK/Ω", 1000],
    ["K·Ω⁻¹", "K/Ω", 1],
    ["K Ω^-1", "K/Ω", 1],
    ["1/K", "K^-1", 1],
    ["W/(m K)", "mW/(m·K)", 1000],
    ["ohms", "Ω", 1],
    ["degC", "K", 1],
    ["K/div", "mK/div", 1000],
  ])("%s in %s: %d", (from, to, expected) => {
    expect(factor(from, to)).toBe(expected);
  });

  test.each([
    ["K", "Ω"],
    ["K/Ω", "K"],
    ["m", "m²"],
    ["div", "K"],
    ["%", "K"],
    ["s", "Hz"],
  ])("%s and %s do not go together", (a, b) => {
    expect(factor(a, b)).toBeNull();
  });

  test.each(["", "J/kg K", "J/kg·K", "a/b/c d", "K/", "/K", "(K", "K)", "5", "K^0", "K^99", "2 K", "K + Ω"])(
    "%j is no unit, or can be read in two ways",
    (text) => {
      expect(readUnit(text)).toBeNull();
    },
  );

  test("brackets within brackets without end are no unit", () => {
    expect(readUnit(`${"(".repeat(20_000)}K${")".repeat(20_000)}`)).toBeNull();
    expect(readUnit("((((K))))")).not.toBeNull();
  });

  test("a coefficient's unit times the term's: K/Ω·mΩ = mK", () => {
    const product = unitProduct(readUnit("K/Ω")!, readUnit("mΩ")!);
    expect(factorBetween(product, readUnit("mK")!)).toBe(1);
  });

  test("there and back is 1, to a rounding", () => {
    const names = ["K", "mK", "°F", "min", "h", "d", "s", "Ω", "kΩ", "ppm", "%", "m", "µm", "bar", "Pa"];
    fc.assert(
      fc.property(fc.constantFrom(...names), fc.constantFrom(...names), (a, b) => {
        const [there, back] = [factor(a, b), factor(b, a)];
        expect(there === null).toBe(back === null);
        if (there !== null) expect(there * back!).toBeCloseTo(1, 14);
      }),
      { seed: 74 },
    );
  });
});

// SI brochure, 2.3.1: t/°C = T/K − 273.15; t/°F = 1.8·t/°C + 32.
describe("temperatures have a zero, differences have none", () => {
  test.each([
    ["K", "°C", 273.15, 0],
    ["°C", "K", 72, 345.15],
    ["°F", "°C", 212, 100],
    ["°C", "°F", -40, -40],
    ["mK", "°C", 273_160, 0.01],
    ["m°C", "°C", 72_000, 72],
    ["°C", "mK", 0.01, 273_160],
    ["°F", "K", 32, 273.15],
  ])("%s to %s: %d becomes %d", (from, to, x, y) => {
    const { factor: f, offset } = conversionBetween(from, to, false)!;
    expect(f * x + offset).toBeCloseTo(y, 9);
  });

  test("a difference of 1.8 °F is 1 K", () => {
    expect(conversionBetween("°F", "°C", true)).toEqual({ factor: 5 / 9, offset: 0 });
    expect(conversionBetween("K", "°C", true)).toEqual({ factor: 1, offset: 0 });
  });

  test("other quantities have no zero to move", () => {
    expect(conversionBetween("mΩ", "Ω", false)).toEqual({ factor: 0.001, offset: 0 });
    expect(conversionBetween("mΩ", "K", false)).toBeNull();
  });
});
