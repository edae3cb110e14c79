import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { findRoot } from "../../../engine/numerics/root.ts";

/** h with every place it is asked at. */
function watched(h: (y: number) => number): { readonly h: (y: number) => number; readonly asked: number[] } {
  const asked: number[] = [];
  return {
    asked,
    h(y) {
      asked.push(y);
      return h(y);
    },
  };
}

// Roots with a closed form; the first two are hard for secant steps (T. R. Chandrupatla, Adv. Eng. Software 28(3), 1997).
const HARD: readonly (readonly [string, (y: number) => number, number, number, number])[] = [
  ["a steep ninth power", (y) => (y - 3) ** 9, -5, 10, 3],
  ["a step", (y) => (y < 0.3 ? -1 : 1), -10, 10, 0.3],
  ["a cube root", Math.cbrt, -8, 1, 0],
  ["a square", (y) => y * y - 2, 0, 1e9, Math.SQRT2],
  ["a tiny root", (y) => y - 1e-300, -1, 1, 1e-300],
  ["a root at an end", (y) => y - 1, 1, 2, 1],
];

describe("a root between two signs", () => {
  test.each(HARD)("of %s, and every step lies in the bracket", (_, h, low, high, root) => {
    const { h: seen, asked } = watched(h);
    const found = findRoot(seen, null, low, high);
    // Four units in the last place, or 2⁻¹⁹⁶ of the bracket for a root nearer to 0.
    expect(Math.abs(found - root)).toBeLessThanOrEqual(4 * 2 ** -52 * Math.abs(root) + 2 ** -196 * (high - low));
    expect(asked.every((y) => y >= low && y <= high)).toBe(true);
  });

  // Not nearer to 0 than 1e-6: after 200 steps a root there is known to a share of the bracket, not of itself.
  test("of any line, whichever way the bracket is given", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-6, max: 1e6, noNaN: true }),
        fc.boolean(),
        fc.double({ min: 1e-6, max: 1e6, noNaN: true }),
        fc.double({ min: 1e-6, max: 1e6, noNaN: true }),
        (size, negative, below, above) => {
          const root = negative ? -size : size;
          const h = (y: number, x: number): number => y - x;
          const close = 8 * 2 ** -52 * size;
          expect(Math.abs(findRoot(h, root, root - below, root + above) - root)).toBeLessThanOrEqual(close);
          expect(Math.abs(findRoot(h, root, root + above, root - below) - root)).toBeLessThanOrEqual(close);
        },
      ),
      { numRuns: 300, seed: 38 },
    );
  });

  test("with a tolerance takes no more steps than halving would", () => {
    const { h, asked } = watched((y) => Math.exp(y) - 2);
    expect(Math.abs(findRoot(h, null, 0, 1, 1e-6) - Math.LN2)).toBeLessThanOrEqual(1e-6);
    // Halving [0, 1] to 1e-6 takes 20 steps after the two ends.
    expect(asked.length).toBeLessThanOrEqual(22);
  });

  test.each<[string, (y: number) => number]>([
    ["one sign at both ends", (y) => y * y + 1],
    ["a pole in between", (y) => (Math.abs(y) < 0.5 ? Number.NaN : y)],
    ["an end that is not finite", (y) => (y < 0 ? -Infinity : 1)],
  ])("is NaN for %s", (_, h) => {
    expect(findRoot(h, null, -1, 1)).toBeNaN();
  });
});
