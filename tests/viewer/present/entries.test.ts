import { describe, expect, test } from "vitest";
import { estimateEntries, missingPlaces } from "../../../viewer/present/entries.ts";
import { english, plain } from "../../../viewer/present/numbers.ts";

describe("estimateEntries: both to two digits of u (JCGM 100:2008, 7.2.6), in one unit", () => {
  test.each([
    [101.55992, 0.00020976, "Ω", "101.55992", "0.00021", "Ω"],
    [0, 0.0017320508, "°C", "0.0000", "0.0017", "°C"],
    [100, 0, "Ω", "100", "0", "Ω"],
    [1.15e-5, 1.1547e-6, "1/°C", "11.5", "1.2", "10⁻⁶\u00a01/°C"],
    [0, 5.77e-7, "1/°C", "0.00", "0.58", "10⁻⁶\u00a01/°C"],
    [50000623, 25, "nm", "50\u202f000\u202f623", "25", "nm"],
    [0.5, 1, "1", "0.5", "1.0", "1"],
    [0.2852571244, 5.3e-9, "1", "0.2852571244", "0.0000000053", "1"],
  ])("%f with u = %f %s", (estimate, uncertainty, unit, x, u, shown) => {
    expect(estimateEntries(estimate, uncertainty, unit, english)).toEqual({
      estimate: { digits: x, unit: shown },
      uncertainty: { digits: u, unit: shown },
    });
  });
});

describe("entry", () => {
  test.each([
    [-0.9999999999999932, 3, "1", "−1.00", "1"],
    [2.6641185518895125, 3, "°C/Ω", "2.66", "°C/Ω"],
    [5000062.29, 3, "nm/(1/°C)", "5.00", "10⁶\u00a0nm/(1/°C)"],
    [-575.0071, 3, "nm/°C", "−575", "nm/°C"],
    [0, 3, "nm", "0", "nm"],
  ])("%f to %i digits", (value, places, unit, digits, shown) => {
    expect(english.entry(value, places, unit)).toEqual({ digits, unit: shown });
  });
});

test.each([
  [100, "100"],
  [0.00005, "0.00005"],
  [5e-9, "5\u00a0×\u00a010⁻⁹"],
  [1.25e-7, "1.25\u00a0×\u00a010⁻⁷"],
  [-0.004, "−0.004"],
])("plain: %f", (value, text) => {
  expect(plain(value)).toBe(text);
});

test("missingPlaces makes all texts as long after the decimal sign", () => {
  const texts = ["0.012", "−0.0060", "100", "∞"];
  const missing = missingPlaces(texts, english);
  const places = texts.map((text, i) => `${text}${missing[i]}`.split(".")[1]!.length);
  expect(new Set(places)).toEqual(new Set([4]));
});
