import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  decimalsFor,
  fixed,
  overUnit,
  percent,
  probabilityText,
  quotientUnit,
  significant,
  whole,
  withUnit,
} from "../../../viewer/present/numbers.ts";
import { roundResult } from "../../../engine/index.ts";

/** A printed text as a number again. */
const readBack = (text: string): number => Number(text.replace("\u2212", "-").replaceAll("\u202f", ""));

describe("fixed", () => {
  test.each([
    [-0.00909241218459789, 4, "−0.0091"],
    [0.00004, 4, "0.0000"],
    [-0.00004, 4, "0.0000"],
    [50000838, 0, "50\u202f000\u202f838"],
    [8000, 0, "8000"],
    [-12345.5, 1, "−12\u202f345.5"],
    [577.35, -1, "580"],
    [Infinity, 2, "∞"],
    [Number.NaN, 2, "–"],
  ])("%f to %i decimals", (value, decimals, text) => {
    expect(fixed(value, decimals)).toBe(text);
  });

  test("loses no more than half a unit of the last place, whatever the number", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e9, max: 1e9, noNaN: true }),
        fc.integer({ min: 0, max: 9 }),
        (value, decimals) => {
          // Half a unit of the last place, and what a double near `value` cannot resolve.
          expect(Math.abs(readBack(fixed(value, decimals)) - value)).toBeLessThanOrEqual(
            0.5 * 10 ** -decimals + 2 ** -52 * Math.abs(value),
          );
        },
      ),
      { seed: 20, numRuns: 500 },
    );
  });
});

describe("rounding by GUM 7.2.6", () => {
  // JCGM 100:2008, 7.2.6: for u_c(y) = 27 mΩ, y = 10.057 62 Ω is rounded to 10.058 Ω.
  test("10.057 62 Ω with 27 mΩ", () => {
    const decimals = decimalsFor(0.027, 2);
    expect([fixed(10.05762, decimals), fixed(0.027, decimals)]).toEqual(["10.058", "0.027"]);
  });

  test("the same digits as the engine's", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e4, max: 1e4, noNaN: true }),
        fc.double({ min: 1e-7, max: 9.9, noNaN: true }),
        (estimate, uncertainty) => {
          const expected = roundResult(estimate, uncertainty, 2);
          const decimals = decimalsFor(uncertainty, 2);
          expect(decimals).toBe(expected.decimals);
          expect(fixed(estimate, decimals).replaceAll("\u202f", "")).toBe(expected.estimate.replace("-", "−"));
        },
      ),
      { seed: 21, numRuns: 500 },
    );
  });
});

test.each([
  [0, 3, "0"],
  [5.773502691896258e-7, 2, "5.8\u00a0×\u00a010⁻⁷"],
  [5000062.294351253, 3, "5.00\u00a0×\u00a010⁶"],
  [-2.5e12, 2, "−2.5\u00a0×\u00a010¹²"],
  [0.0996, 1, "0.1"],
  [41.44, 3, "41.4"],
])("significant: %f to %i digits", (value, digits, text) => {
  expect(significant(value, digits)).toBe(text);
});

test.each([
  [0.5462992920329274, "54.6\u00a0%"],
  [0.000024, "<\u00a00.1\u00a0%"],
  [0, "0.0\u00a0%"],
  [1, "100.0\u00a0%"],
])("percent: %f", (share, text) => {
  expect(percent(share)).toBe(text);
});

test.each([
  [0.95, "95\u00a0%"],
  [0.9544997361036416, "95.45\u00a0%"],
  [0.999, "99.9\u00a0%"],
])("probabilityText: %f", (probability, text) => {
  expect(probabilityText(probability)).toBe(text);
});

test("units", () => {
  expect(withUnit("1.2", "1")).toBe("1.2");
  expect(withUnit("1.2", "°C")).toBe("1.2\u00a0°C");
  expect(quotientUnit("°C", "°C")).toBe("1");
  expect(quotientUnit("°C", "Ω")).toBe("°C/Ω");
  expect(quotientUnit("mg", "kg/m³")).toBe("mg/(kg/m³)");
  expect(quotientUnit("nm", "1")).toBe("nm");
  expect(overUnit("density", "1/°C")).toBe("density / (1/°C)");
  expect(whole(1_000_000)).toBe("1\u202f000\u202f000");
});
