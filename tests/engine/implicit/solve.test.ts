import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { findBracket, findRoot, findRootBySlope } from "../../../engine/index.ts";

/** Roots known to 15 digits or more. */
const known = [
  // Dottie number: OEIS A003957.
  {
    name: "cos y = y",
    h: (y: number) => Math.cos(y) - y,
    slope: (y: number) => -Math.sin(y) - 1,
    low: 0,
    high: 1,
    root: 0.7390851332151607,
  },
  // Wallis's example for Newton's method, 1685: y³ − 2y − 5 = 0; OEIS A007493.
  {
    name: "y³ − 2y − 5",
    h: (y: number) => y * y * y - 2 * y - 5,
    slope: (y: number) => 3 * y * y - 2,
    low: 2,
    high: 3,
    root: 2.0945514815423265,
  },
  // Omega constant: OEIS A030178.
  {
    name: "y·eʸ = 1",
    h: (y: number) => y * Math.exp(y) - 1,
    slope: (y: number) => (1 + y) * Math.exp(y),
    low: 0,
    high: 1,
    root: 0.5671432904097838,
  },
  {
    name: "a steep wall",
    h: (y: number) => Math.expm1(50 * (y - 0.3)),
    slope: (y: number) => 50 * Math.exp(50 * (y - 0.3)),
    low: -10,
    high: 10,
    root: 0.3,
  },
  {
    name: "a flat ninth power",
    h: (y: number) => (y - 1) ** 9,
    slope: (y: number) => 9 * (y - 1) ** 8,
    low: -3,
    high: 2.7,
    root: 1,
  },
];

/** How often a solver evaluates y³ − 2y − 5. */
function callsOf(solve: (h: (y: number) => number) => number): number {
  let calls = 0;
  solve((y) => {
    calls += 1;
    return y * y * y - 2 * y - 5;
  });
  return calls;
}

const lessTwo = (y: number): number => y - 2;

describe("root inside a bracket", () => {
  it.each(known)("finds $name by interpolation, both ways round", ({ h, low, high, root, name }) => {
    // The ninth power underflows to 0 only within 1e-36 of its root; interpolation helps little there, halving gets to 1e-12.
    const tolerance = name.startsWith("a flat") ? 1e-12 : 4 * 2 ** -52 * Math.max(1, Math.abs(root));
    expect(Math.abs(findRoot(h, null, low, high) - root)).toBeLessThanOrEqual(tolerance);
    expect(Math.abs(findRoot(h, null, high, low) - root)).toBeLessThanOrEqual(tolerance);
    expect(Math.abs(findRoot((y) => -h(y), null, low, high) - root)).toBeLessThanOrEqual(tolerance);
  });

  it.each(known)("finds $name by slopes from any start", ({ h, slope, low, high, root, name }) => {
    // Newton gains a fixed factor a step at a ninth-fold root and stops where steps are a rounding of y.
    const tolerance = name.startsWith("a flat") ? 1e-12 : 8 * 2 ** -52 * Math.max(1, Math.abs(root));
    for (const start of [low, high, low + 0.37 * (high - low), Number.NaN, 1e9]) {
      expect(Math.abs(findRootBySlope(h, slope, null, low, high, start) - root)).toBeLessThanOrEqual(tolerance);
    }
  });

  it("needs few evaluations", () => {
    // Halving alone takes 52.
    expect(callsOf((h) => findRoot(h, null, 2, 3))).toBeLessThanOrEqual(12);
    expect(callsOf((h) => findRootBySlope(h, (y) => 3 * y * y - 2, null, 2, 3, 2))).toBeLessThanOrEqual(10);
  });

  it("finds the root of any rising cubic, within its bracket", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -50, max: 50, noNaN: true }),
        fc.double({ min: 1e-3, max: 1e3, noNaN: true }),
        fc.double({ min: 0.01, max: 100, noNaN: true }),
        fc.double({ min: 0.01, max: 100, noNaN: true }),
        (root, stiffness, below, above) => {
          const h = (y: number): number => (y - root) * (1 + stiffness * (y - root) * (y - root));
          const slope = (y: number): number => 1 + 3 * stiffness * (y - root) * (y - root);
          const found = [
            findRoot(h, null, root - below, root + above),
            findRootBySlope(h, slope, null, root - below, root + above, root + above / 2),
          ];
          return found.every(
            (y) =>
              Math.abs(y - root) <= 8 * 2 ** -52 * Math.max(1, Math.abs(root)) &&
              y >= root - below &&
              y <= root + above,
          );
        },
      ),
      { seed: 1973, numRuns: 2000 },
    );
  });

  it("accepts a root at an end, and stops at the given tolerance", () => {
    expect(findRoot(lessTwo, null, 2, 5)).toBe(2);
    expect(findRoot(lessTwo, null, -5, 2)).toBe(2);
    expect(findRootBySlope(lessTwo, () => 1, null, 2, 5, 3)).toBe(2);
    let calls = 0;
    const counted = (y: number): number => {
      calls += 1;
      return Math.cos(y) - y;
    };
    expect(Math.abs(findRoot(counted, null, 0, 1, 1e-3) - 0.7390851332151607)).toBeLessThan(1e-3);
    const coarse = calls;
    calls = 0;
    findRoot(counted, null, 0, 1);
    expect(coarse).toBeLessThan(calls);
  });

  it("passes the trial's inputs through", () => {
    expect(findRoot((y, x: { square: number }) => y * y - x.square, { square: 2 }, 0, 2)).toBeCloseTo(Math.SQRT2, 15);
  });

  it.each([
    ["one sign at both ends", (y: number) => y * y + 1, -1, 1],
    ["not finite at an end", (y: number) => 1 / (y - 1), 1, 2],
    ["not finite on the way", (y: number) => (Math.abs(y) < 0.9 ? Number.NaN : y), -1, 1],
  ])("gives NaN where h is %s", (_, h, low, high) => {
    expect(findRoot(h, null, low, high)).toBeNaN();
    expect(findRootBySlope(h, () => 1, null, low, high, low)).toBeNaN();
  });
});

describe("search for a bracket", () => {
  it("finds a change of sign on either side of the start", () => {
    for (const root of [-1e6, -3, -1e-3, 0.2, 7, 1e5]) {
      const found = findBracket((y) => Math.atan(y - root), null, 0, 0.1)!;
      expect(found.low).toBeLessThanOrEqual(root);
      expect(found.high).toBeGreaterThanOrEqual(root);
    }
    expect(findBracket((y) => y, null, 0, 1)).toEqual({ low: 0, high: 0 });
  });

  it("stays within the limits, where h may not be defined outside", () => {
    const asked: number[] = [];
    const h = (y: number): number => {
      asked.push(y);
      return Math.log(y) + 20;
    };
    const found = findBracket(h, null, 1, 0.5, { low: 1e-300, high: 10 })!;
    expect(Math.min(...asked)).toBeGreaterThanOrEqual(1e-300);
    expect(h(found.low) < 0 && h(found.high) > 0).toBe(true);
    expect(findBracket((y) => y * y + 1, null, 1, 0.5, { low: -10, high: 10 })).toBeNull();
    expect(findBracket(() => Number.NaN, null, 1, 0.5)).toBeNull();
  });
});
