// Sums that have no closed form, against a plain convolution in NumPy at 2²² cells: tests/reference/convolution.py.
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import type { LinearTerm } from "../../../engine/convolution/linear-term.ts";
import { distributionOf, normal, rectangular, studentT, term } from "./term.ts";

interface Reference {
  readonly cases: readonly {
    readonly name: string;
    readonly terms: readonly (readonly [kind: keyof typeof KINDS, size: number, second?: number])[];
    readonly standardUncertainty: number;
    readonly quantiles: readonly (readonly [number, number])[];
    readonly twoLatticesDifferBy: number;
  }[];
}

const { cases } = JSON.parse(
  readFileSync(new URL("../../reference/convolution.json", import.meta.url), "utf8"),
) as Reference;

const KINDS = {
  normal,
  rectangular: (size: number) => rectangular(size),
  triangular: (halfWidth: number) => term({ distribution: "triangular", estimate: 0, halfWidth }),
  arcsine: (halfWidth: number) => term({ distribution: "arcsine", estimate: 0, halfWidth }),
  exponential: (estimate: number) => term({ distribution: "exponential", estimate }),
  trapezoidal: (halfWidth: number, topRatio?: number) =>
    term({ distribution: "trapezoidal", estimate: 0, halfWidth, topRatio: topRatio! }),
  "curvilinear-trapezoid": (halfWidth: number, limitHalfWidth?: number) =>
    term({ distribution: "curvilinear-trapezoid", estimate: 0, halfWidth, limitHalfWidth: limitHalfWidth! }),
  poisson: (step: number, mean?: number) => term({ distribution: "poisson", estimate: mean! }, step),
  t: (size: number, ν?: number) => studentT(size, ν!),
} satisfies Record<string, (size: number, second?: number) => LinearTerm>;

test.each(cases)("$name", ({ terms, standardUncertainty: u, quantiles, twoLatticesDifferBy }) => {
  const found = distributionOf(terms.map(([kind, size, second]) => KINDS[kind](size, second)));
  // Counts beside one other input need no lattice.
  expect(found.cells ?? 0).toBeLessThanOrEqual(2 ** 14);
  for (const [p, x] of quantiles) {
    // 10⁻⁶ u is the goal; the reference itself is known to a part of what its two lattices differ by.
    expect(Math.abs(found.distribution.quantile(p) - x)).toBeLessThan(1e-6 * u + twoLatticesDifferBy);
  }
  expect(found.distribution.standardDeviation).toBeCloseTo(u, 10);
});
