import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { type Statement } from "../../../engine/index.ts";
import { distributionKinds, readStatement } from "../../../engine/internal.ts";

interface Case {
  readonly statement: Statement;
  readonly quantiles: readonly (readonly [number, number])[];
  readonly distributionFunction: readonly (readonly [number, number])[];
  readonly density: readonly (readonly [number, number])[];
}

const reference = JSON.parse(readFileSync(new URL("../../reference/distributions.json", import.meta.url), "utf8")) as {
  readonly libraries: Readonly<Record<string, string>>;
  readonly cases: readonly Case[];
};

/** The figures are rounded once from 60 digits, so this is the engine's own error. */
const RELATIVE = 1e-10;

// Source of every figure: tests/reference/distributions.py (mpmath, checked there against SciPy).
describe.each(reference.cases)("$statement", ({ statement, quantiles, distributionFunction, density }) => {
  const { distribution } = readStatement(statement, "x");
  // A quantile is location + scale·z: where that is nearly 0 only the digits of its terms can be asked for.
  const sizes = [...distribution.support, distribution.mean ?? 0].filter(Number.isFinite).map(Math.abs);
  const floor = 4 * 2 ** -52 * Math.max(...sizes);

  test("quantiles at 50 probabilities or more, from 1e-12 to 1 − 1e-12", () => {
    expect(quantiles.length).toBeGreaterThanOrEqual(50);
    for (const [p, x] of quantiles)
      expect(Math.abs(distribution.quantile(p) - x), `at ${p}`).toBeLessThanOrEqual(RELATIVE * Math.abs(x) + floor);
  });

  test("distribution function", () => {
    for (const [x, F] of distributionFunction)
      expect(Math.abs(distribution.distributionFunction(x) - F), `at ${x}`).toBeLessThanOrEqual(RELATIVE * F);
  });

  test("density", () => {
    for (const [x, f] of density)
      expect(Math.abs(distribution.density(x) - f), `at ${x}`).toBeLessThanOrEqual(RELATIVE * f);
  });
});

test("every kind but the constant has reference figures, and the tools that made them are named", () => {
  const kinds = new Set(reference.cases.map(({ statement }) => statement.distribution));
  expect([...kinds, "constant"].toSorted()).toEqual([...distributionKinds.keys()].toSorted());
  expect(Object.keys(reference.libraries)).toEqual(["python", "mpmath", "numpy", "scipy"]);
});

/**
 * JCGM 101:2008, 6.4 and table 1 (the figures computed independently in closed form and, for the
 * curvilinear trapezoid, confirmed by a run of 10⁷ trials with numpy's PCG64).
 */
describe("JCGM 101, 6.4, table 1", () => {
  const unit = { lower: -1, upper: 1 } as const;
  test.each([
    [{ distribution: "rectangular", ...unit }, 0.577350269, { 0.95: 0.95, 0.99: 0.99 }],
    [{ distribution: "triangular", ...unit }, 0.40824829, { 0.95: 0.77639320225, 0.99: 0.9 }],
    [{ distribution: "arcsine", ...unit }, Math.SQRT1_2, { 0.95: 0.996917333733, 0.99: 0.999876632482 }],
    [
      { distribution: "trapezoidal", ...unit, topRatio: 0.5 },
      0.456435465,
      { 0.95: 0.80635083269, 0.99: 0.913397459622 },
    ],
    [
      { distribution: "curvilinear-trapezoid", ...unit, limitHalfWidth: 0.5 },
      0.600925212577,
      { 0.5: 0.455119613313, 0.95: 1.12975420628, 0.99: 1.33016135833 },
    ],
    [
      { distribution: "curvilinear-trapezoid", ...unit, limitHalfWidth: 0.1 },
      0.578311719097,
      { 0.5: 0.498328865456, 0.95: 0.955048235143, 0.99: 1.03433757606 },
    ],
    [
      { distribution: "curvilinear-trapezoid", lower: -0.05, upper: 0.05, limitHalfWidth: 0.025 },
      0.0300462606289,
      { 0.5: 0.0227559806657, 0.95: 0.0564877103139, 0.99: 0.0665080679165 },
    ],
  ] as [Statement, number, Record<string, number>][])("%o", (statement, deviation, halfWidths) => {
    const { distribution } = readStatement(statement, "x");
    expect(distribution.standardDeviation! / deviation).toBeCloseTo(1, 8);
    for (const [p, halfWidth] of Object.entries(halfWidths)) {
      expect(distribution.quantile((1 + Number(p)) / 2) / halfWidth).toBeCloseTo(1, 8);
      expect(distribution.quantile((1 - Number(p)) / 2) / -halfWidth).toBeCloseTo(1, 8);
    }
  });

  test("exponential: expectation x, variance x² (6.4.10); gamma from q counts: both q + 1 (6.4.11)", () => {
    const exponential = readStatement({ distribution: "exponential", estimate: 0.4 }, "x");
    expect(exponential.budget).toMatchObject({ estimate: 0.4, standardUncertainty: 0.4 });
    const counts = readStatement({ distribution: "gamma", count: 9 }, "x").distribution;
    expect(counts.mean).toBe(10);
    expect(counts.standardDeviation! * counts.standardDeviation!).toBeCloseTo(10, 12);
  });

  test("t from n indications: variance s²/n·(n − 1)/(n − 3) (6.4.9.2)", () => {
    const { distribution, budget } = readStatement({ distribution: "readings", values: [8, 9, 10, 11, 12] }, "x");
    // s² = 2.5, n = 5
    expect(budget).toMatchObject({ estimate: 10, degreesOfFreedom: 4, evaluation: "A" });
    expect(budget.standardUncertainty).toBeCloseTo(Math.sqrt(0.5), 14);
    expect(distribution.standardDeviation!).toBeCloseTo(1, 14);
  });
});
