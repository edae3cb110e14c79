import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { roundResult } from "../../../engine/index.ts";
import { decimalsFor, toDecimals } from "../../../engine/internal.ts";

describe("results as JCGM 100, 7.2.6 requires them", () => {
  test.each<[number, number, 1 | 2, string, string]>([
    // 7.2.6: y = 10.057 62 Ω with u_c = 27 mΩ is reported as 10.058 Ω; u_c = 28.05 kHz rounds to 28 kHz.
    [10.05762, 0.027, 2, "10.058", "0.027"],
    [0, 28.05, 2, "0", "28"],
    // JCGM 100, 7.2.2: m_S = 100.021 47 g with u_c = 0.35 mg.
    [100.02147, 0.00035, 2, "100.02147", "0.00035"],
    [50_000_838, 31.711, 2, "50000838", "32"],
    [50_000_838, 31.711, 1, "50000840", "30"],
    [-0.17120379, 0.0028774, 2, "-0.1712", "0.0029"],
    [20.1, 0.0996, 2, "20.10", "0.10"],
    [20.1, 0.96, 1, "20", "1"],
    [1.5, 0.1, 2, "1.50", "0.10"],
    [123_456, 1234, 2, "123500", "1200"],
    [-0.0001, 0.01, 2, "0.000", "0.010"],
    [-4, 30, 1, "0", "30"],
    [5e-9, 1.23e-8, 2, "0.000000005", "0.000000012"],
  ])("%d ± %d to %d digits: %s ± %s", (estimate, uncertainty, digits, printed, printedUncertainty) => {
    const result = roundResult(estimate, uncertainty, digits);
    expect([result.estimate, result.uncertainty]).toEqual([printed, printedUncertainty]);
  });

  test("halves are rounded away from zero on either side, at places before and after the point", () => {
    expect([2.5, -2.5, 0.125, -0.125].map((x) => toDecimals(x, Number.isInteger(x * 4) ? 0 : 2))).toEqual([
      "3",
      "-3",
      "0.13",
      "-0.13",
    ]);
    expect(toDecimals(25, -1)).toBe("30");
    expect(toDecimals(-25, -1)).toBe("-30");
    expect(toDecimals(-150, -2)).toBe("-200");
  });

  test("the printed estimate is within half a unit of its last place, and both have the same places", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        fc.double({ min: 1e-9, max: 1e6, noNaN: true }),
        fc.constantFrom<1 | 2>(1, 2),
        (y, u, digits) => {
          const { estimate, uncertainty, decimals } = roundResult(y, u, digits);
          const unit = 10 ** -decimals;
          expect(Math.abs(Number(estimate) - y)).toBeLessThanOrEqual(
            (unit / 2) * (1 + 1e-9) + 1e-9 * Math.abs(y) * 1e-6,
          );
          expect(Math.abs(Number(uncertainty) - u)).toBeLessThanOrEqual((unit / 2) * (1 + 1e-9));
          expect((estimate.split(".")[1] ?? "").length).toBe((uncertainty.split(".")[1] ?? "").length);
          expect(estimate).not.toMatch(/^-0(\.0*)?$/);
          // The uncertainty shows exactly the digits asked for.
          const shown = uncertainty.replace(".", "").replace(/^0+/, "");
          expect(decimals >= 0 ? shown.length : String(Math.round(Number(uncertainty) / 10 ** -decimals)).length).toBe(
            digits,
          );
        },
      ),
      { seed: 1 },
    );
  });

  test("no uncertainty and what is no number are shown, not refused", () => {
    expect(decimalsFor(0, 2)).toBe(6);
    expect(toDecimals(Number.NaN, 2)).toBe("NaN");
    expect(toDecimals(Infinity, 2)).toBe("Infinity");
  });
});
