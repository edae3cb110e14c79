import { describe, expect, test } from "vitest";
import { gammaDistribution } from "../../../engine/distributions/gamma.ts";
import { normalDensity, normalDistributionFunction } from "../../../engine/numerics/standard-normal.ts";
import { adaptiveIntegral } from "../../../engine/numerics/adaptive-integral.ts";
import { distributionOf, normal, rectangular, studentT, term } from "./term.ts";

/** In standard deviations of the sum: what is asked of an endpoint. */
const GOAL = 1e-6;

/** The x at which a rising function reaches a target, by bisection: independent of the engine's own inverse. */
function inverse(F: (x: number) => number, target: number, low: number, high: number): number {
  for (let i = 0; i < 200; i++) {
    const middle = (low + high) / 2;
    if (F(middle) < target) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

function factorial(n: number): number {
  return n <= 1 ? 1 : n * factorial(n - 1);
}

/** P(U₁ + … + U_n ≤ x) of rectangulars from 0 to 1: Irwin (1927) and Hall (1927), by the shorter tail. */
function irwinHall(n: number, x: number): number {
  if (x > n / 2) return 1 - irwinHall(n, n - x);
  let sum = 0;
  for (let k = 0; k <= x; k++) sum += ((k % 2 === 0 ? 1 : -1) * (x - k) ** n) / (factorial(k) * factorial(n - k));
  return sum;
}

describe("sums of equal rectangulars", () => {
  test.each(Array.from({ length: 11 }, (_, i) => i + 2))("%i of them: Irwin and Hall", (n) => {
    for (const p of [0.5, 0.95, 0.9545, 0.99, 0.9973]) {
      const { interval, error } = distributionOf(
        Array.from({ length: n }, () => rectangular(0.5)),
        p,
      );
      const end = n / 2 - inverse((x) => irwinHall(n, x), (1 - p) / 2, 0, n / 2);
      const u = Math.sqrt(n / 12);
      expect(Math.abs(interval[1] - end) / u).toBeLessThan(GOAL);
      expect(Math.abs(interval[0] + end) / u).toBeLessThan(GOAL);
      expect(Math.abs(interval[1] - end)).toBeLessThanOrEqual(error[1] + 1e-12 * u);
    }
  });
});

describe("JCGM 101, 9.2", () => {
  test("9.2.2: four standard normals give N(0, 4)", () => {
    const { interval } = distributionOf([normal(1), normal(1), normal(1), normal(1)]);
    // 9.2.2.7 prints ±3.92.
    expect(interval[1]).toBeCloseTo(2 * 1.959963984540054, 12);
  });

  test("9.2.3: four rectangulars of standard deviation 1 give ±3.88 (9.2.3.4, from the closed form)", () => {
    const { interval } = distributionOf(Array.from({ length: 4 }, () => rectangular(Math.sqrt(3))));
    // 9.2.3.4, note: ±2√3·[2 − (3/5)^¼].
    expect(interval[1]).toBeCloseTo(2 * Math.sqrt(3) * (2 - (3 / 5) ** 0.25), 9);
  });

  test("9.2.4: three rectangulars of standard deviation 1 and one of 10 give ±17.0 (table 4)", () => {
    const { interval } = distributionOf([1, 1, 1, 10].map((u) => rectangular(u * Math.sqrt(3))));
    expect(interval[1]).toBeCloseTo(17, 1);
    // Within the flat middle the sum's function is a straight line up to the greatest of the rest, 3√3 from its ends;
    // beyond, the third power: P(Y ≤ y) by integration of the rectangular over the Irwin–Hall of three.
    const a = Math.sqrt(3);
    const F = (y: number): number =>
      adaptiveIntegral(
        (t) => irwinHall(3, Math.min(3, Math.max(0, (y - t) / (2 * a) + 1.5))) / (20 * a),
        [-10 * a, y - 3 * a, y - a, y + a, y + 3 * a, 10 * a].filter((x) => x <= 10 * a).toSorted((x, z) => x - z),
        1e-13,
      );
    expect(Math.abs(interval[1] - inverse(F, 0.975, 10, 20))).toBeLessThan(GOAL * 10);
  });
});

/** P(R + Z·σ ≤ y) of a rectangular of half-width a: [G(y + a) − G(y − a)]/(2a) with G the integral of Φ. */
const rectangularWithNormal = (a: number, σ: number, y: number): number => {
  const G = (x: number): number => σ * ((x / σ) * normalDistributionFunction(x / σ) + normalDensity(x / σ));
  return (G(y + a) - G(y - a)) / (2 * a);
};

describe("a rectangular with a normal", () => {
  test.each([1, 0.3, 0.1, 0.03, 0.01, 1e-3, 1e-4, 1e-6])("normal of %d half-widths", (σ) => {
    for (const p of [0.5, 0.95, 0.9973]) {
      const { interval } = distributionOf([rectangular(1), normal(σ)], p);
      const end = inverse((y) => rectangularWithNormal(1, σ, y), (1 + p) / 2, 0, 20);
      const u = Math.sqrt(1 / 3 + σ * σ);
      expect(Math.abs(interval[1] - end) / u).toBeLessThan(GOAL);
    }
  });
});

describe("sums of exponentials and gammas are gammas", () => {
  test.each([2, 3, 5, 12])("%i exponentials: Erlang", (n) => {
    const { interval } = distributionOf(
      Array.from({ length: n }, () => term({ distribution: "exponential", estimate: 1 })),
    );
    const erlang = gammaDistribution(n, 1);
    expect(Math.abs(interval[0] + n - erlang.quantile(0.025)) / Math.sqrt(n)).toBeLessThan(GOAL);
    expect(Math.abs(interval[1] + n - erlang.quantile(0.975)) / Math.sqrt(n)).toBeLessThan(GOAL);
  });
});

/**
 * P(T ≤ x) for odd degrees of freedom in closed form (M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions,
 * 26.7.3), which the engine does not use.
 */
function tBelow(x: number, ν: number): number {
  const θ = Math.atan(x / Math.sqrt(ν));
  const cosine = Math.cos(θ);
  let power = cosine;
  let sum = ν > 1 ? cosine : 0;
  for (let k = 3; k <= ν - 2; k += 2) sum += power *= ((k - 1) / k) * cosine * cosine;
  return 0.5 + (θ + Math.sin(θ) * sum) / Math.PI;
}

describe("a t with a normal", () => {
  test.each([
    [3, 1],
    [5, 0.1],
    [9, 10],
    [51, 1],
  ])("ν = %d, normal of %d: by quadrature", (ν, σ) => {
    const { interval, distribution } = distributionOf([studentT(1, ν), normal(σ)]);
    const F = (y: number): number =>
      adaptiveIntegral(
        (z) => normalDensity(z) * tBelow(y - σ * z, ν),
        Array.from({ length: 19 }, (_, i) => i - 9),
        1e-13,
      );
    const u = Math.sqrt(ν / (ν - 2) + σ * σ);
    expect(Math.abs(F(interval[1]) - 0.975) / distribution.density(interval[1]) / u).toBeLessThan(GOAL);
    expect(distribution.standardDeviation).toBeCloseTo(u, 12);
  });
});
