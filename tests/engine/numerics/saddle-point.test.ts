import { describe, expect, test } from "vitest";
import { gaussLegendre } from "../../../engine/numerics/gauss-legendre.ts";
import {
  binomialProbability,
  deviance,
  poissonProbability,
  stirlingError,
} from "../../../engine/numerics/saddle-point.ts";

const factorial = (n: number): number => (n < 2 ? 1 : n * factorial(n - 1));

describe("probabilities by the saddle point (C. Loader, 2000)", () => {
  // ln n! − [(n + ½) ln n − n + ½ ln 2π]; factorials to 18! are exact doubles. 15 | 16 is where the series begins.
  test.each([1, 2, 5, 10, 14, 15, 16, 17, 18])("the error of Stirling's formula at %d", (n) => {
    const terms = [Math.log(factorial(n)), (n + 0.5) * Math.log(n), n, Math.log(2 * Math.PI) / 2];
    const expected = terms[0]! - (terms[1]! - terms[2]! + terms[3]!);
    // Each term is rounded once: half a unit in its last place.
    expect(Math.abs(stirlingError(n) - expected)).toBeLessThan(2 ** -52 * terms.reduce((sum, term) => sum + term, 0));
  });

  test("x ln(x/m) + m − x is 0 at x = m, and (x − m)²/2m close to it, where a difference of logarithms has no digits", () => {
    expect(deviance(7, 7)).toBe(0);
    const m = 1e6;
    const d = 1e-3;
    // The next term of the series is −(x − m)³/6m², 3e-10 of the first.
    expect(deviance(m + d, m) / ((m + d - m) ** 2 / (2 * m)) - 1).toBeCloseTo(0, 9);
  });

  test.each([
    [0, 2, Math.exp(-2)],
    [3, 2, (Math.exp(-2) * 8) / 6],
    [20, 20, (Math.exp(-20) * 20 ** 20) / factorial(20)],
  ])("Poisson: P(%d) for the mean %d", (x, m, expected) => {
    expect(poissonProbability(x, m) / expected - 1).toBeCloseTo(0, 14);
  });

  test("Poisson: the probabilities of all counts add to 1", () => {
    let sum = 0;
    for (let x = 0; x < 2000; x++) sum += poissonProbability(x, 1000);
    expect(sum).toBeCloseTo(1, 12);
  });

  // 120 · 0.3³ · 0.7⁷ = 0.266827932 exactly.
  test("binomial: 3 of 10 at p = 0.3", () => {
    expect(binomialProbability(3, 7, 0.3, 0.7)).toBeCloseTo(0.266827932, 15);
  });
});

describe("the 20-point Gauss–Legendre rule", () => {
  test.each(Array.from({ length: 40 }, (_, k) => k))("is exact for x^%d", (k) => {
    // ∫ over [0, 2] = 2^(k + 1)/(k + 1); twenty products and sums are rounded.
    expect(gaussLegendre((x) => x ** k, 0, 2) / (2 ** (k + 1) / (k + 1)) - 1).toBeCloseTo(0, 13);
  });

  test("over a piece of negative width changes its sign", () => {
    expect(gaussLegendre(Math.exp, 1, -1)).toBeCloseTo(1 - Math.E, 14);
  });
});
