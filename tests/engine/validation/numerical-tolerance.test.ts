import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { numericalTolerance } from "../../../engine/internal.ts";

/** JCGM 101:2008, 7.9.2: u = c·10^l with an integer c of n_dig digits, δ = ½·10^l. The first three are its own examples. */
describe("numerical tolerance", () => {
  test.each<[number, 1 | 2, number]>([
    [0.00035, 2, 5e-6],
    [0.0004, 1, 5e-5],
    [2, 1, 0.5],
    [2, 2, 0.05],
    [10.1489, 2, 0.5],
    [0.0755, 1, 0.005],
    [0.0755, 2, 0.0005],
    [0.0996, 2, 0.005],
    [9.96, 2, 0.5],
    [31.7, 2, 0.5],
    [164.3, 2, 5],
    [0.96, 1, 0.5],
    [1e-300, 1, 5e-301],
    [-31.7, 2, 0.5],
    [0, 2, 0],
  ])("%d to %d digits: %d", (u, digits, tolerance) => expect(numericalTolerance(u, digits)).toBe(tolerance));

  test("is always half a power of ten, and from 1/20 to 1/2 (one digit), 1/200 to 1/20 (two) of u, but for rounding up", () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-200, max: 1e200, noNaN: true }), fc.constantFrom<1 | 2>(1, 2), (u, digits) => {
        const δ = numericalTolerance(u, digits);
        expect(String(2 * δ).replace(/^0\.0*|0*$/g, "")).toMatch(/^1(e[+-]?\d+)?$/);
        const ratio = δ / u;
        const most = digits === 1 ? 0.5 : 0.05;
        expect(ratio).toBeGreaterThan((most / 10) * 0.99);
        // 0.96 is 1·10⁰ to one digit: δ = 0.5.
        expect(ratio).toBeLessThanOrEqual(most / (1 - most / 10 ** (digits - 1)) + 1e-9);
      }),
      { seed: 1 },
    );
  });
});
