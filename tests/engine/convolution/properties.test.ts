// What holds of every sum, whatever its terms: symmetry, scale, shift, order, and the inverse of the distribution function.
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { LinearTerm } from "../../../engine/convolution/linear-term.ts";
import { linearisedOf, type Linearised } from "../../../engine/convolution/linearised.ts";
import { shortestOf } from "../../../engine/convolution/sum-distribution.ts";
import type { Statement } from "../../../engine/distributions/index.ts";
import { distributionOf, term } from "./term.ts";
import { LONG } from "../../setup/long.ts";

const width = fc.double({ min: 0.05, max: 2, noNaN: true });
const symmetric: fc.Arbitrary<Statement> = fc.oneof(
  width.map((u) => ({ distribution: "normal" as const, estimate: 0, standardUncertainty: u })),
  width.map((a) => ({ distribution: "rectangular" as const, estimate: 0, halfWidth: a })),
  width.map((a) => ({ distribution: "triangular" as const, estimate: 0, halfWidth: a })),
  width.map((a) => ({ distribution: "arcsine" as const, estimate: 0, halfWidth: a })),
  width.map((u) => ({ distribution: "t" as const, estimate: 0, standardUncertainty: u, degreesOfFreedom: 7 })),
);
const skew: fc.Arbitrary<Statement> = fc.oneof(
  width.map((estimate) => ({ distribution: "exponential" as const, estimate })),
  width.map((u) => ({ distribution: "gamma" as const, count: 1 + Math.round(20 * u) })),
  width.map((u) => ({ distribution: "log-normal" as const, estimate: 1, standardUncertainty: u / 3 })),
);
const statements = (of: fc.Arbitrary<Statement>) => fc.array(of, { minLength: 2, maxLength: 5 });
const sumOf = (of: readonly Statement[], coefficient = 1): readonly LinearTerm[] =>
  of.map((statement) => term(statement, coefficient));
const runs = { numRuns: 6, seed: 14 };

/** The quantiles that are held against one another. */
const PLACES = [0.01, 0.1, 0.5, 0.9, 0.99];
const quantiles = ({ distribution }: Linearised): number[] => PLACES.map((p) => distribution.quantile(p));
const unitOf = ({ distribution }: Linearised): number => distribution.standardDeviation;

describe("a sum of symmetric terms", () => {
  test("is symmetric", () => {
    fc.assert(
      fc.property(statements(symmetric), (of) => {
        const found = distributionOf(sumOf(of));
        const [a, b, c, d, e] = quantiles(found) as [number, number, number, number, number];
        const u = unitOf(found);
        for (const apart of [a + e, b + d, c]) expect(Math.abs(apart) / u).toBeLessThan(1e-9);
      }),
      runs,
    );
  });
});

describe.each([
  ["symmetric", symmetric],
  ["skew", fc.oneof(symmetric, skew)],
] as const)("a sum of %s terms", (_, of) => {
  test("in another order is the same", () => {
    fc.assert(
      fc.property(statements(of), (list) => {
        const [one, other] = [distributionOf(sumOf(list)), distributionOf(sumOf(list.toReversed()))];
        quantiles(one).forEach((x, i) => expect(Math.abs(x - quantiles(other)[i]!) / unitOf(one)).toBeLessThan(1e-11));
      }),
      runs,
    );
  });

  test("in a unit of half the size has twice the figures", () => {
    fc.assert(
      fc.property(statements(of), (list) => {
        const [one, twice] = [distributionOf(sumOf(list)), distributionOf(sumOf(list, 2), 0.95, 2e-4)];
        const u = unitOf(one);
        quantiles(one).forEach((x, i) => expect(Math.abs(quantiles(twice)[i]! / 2 - x) / u).toBeLessThan(1e-13));
      }),
      runs,
    );
  });

  test("in a unit of any size agrees within the error it states", () => {
    fc.assert(
      fc.property(statements(of), fc.double({ min: 1e-3, max: 1e3, noNaN: true }), (list, factor) => {
        const [one, scaled] = [distributionOf(sumOf(list)), distributionOf(sumOf(list, factor), 0.95, 1e-4 * factor)];
        one.interval.forEach((end, i) =>
          expect(Math.abs(scaled.interval[i]! / factor - end)).toBeLessThanOrEqual(
            one.error[i]! + scaled.error[i]! / factor + 1e-13 * unitOf(one),
          ),
        );
      }),
      runs,
    );
  });

  test("with every sign turned is its mirror image", () => {
    fc.assert(
      fc.property(statements(of), (list) => {
        const [one, other] = [distributionOf(sumOf(list)), distributionOf(sumOf(list, -1))];
        const turned = quantiles(other)
          .map((x) => -x)
          .toReversed();
        quantiles(one).forEach((x, i) => expect(Math.abs(x - turned[i]!) / unitOf(one)).toBeLessThan(1e-6));
      }),
      runs,
    );
  });

  test("has a quantile that inverts its function, which rises, and a density that is its slope", () => {
    fc.assert(
      fc.property(statements(of), (list) => {
        const { distribution } = distributionOf(sumOf(list));
        const u = distribution.standardDeviation;
        let before = 0;
        for (let i = 1; i < 40; i++) {
          const p = i / 40;
          const x = distribution.quantile(p);
          expect(distribution.distributionFunction(x)).toBeCloseTo(p, 12);
          expect(distribution.upperTail(x)).toBeCloseTo(1 - p, 12);
          expect(distribution.distributionFunction(x)).toBeGreaterThan(before);
          before = distribution.distributionFunction(x);
        }
        const x = distribution.quantile(0.3);
        const step = 1e-3 * u;
        const slope =
          (distribution.distributionFunction(x + step) - distribution.distributionFunction(x - step)) / (2 * step);
        expect(Math.abs(slope / distribution.density(x) - 1)).toBeLessThan(0.01);
      }),
      runs,
    );
  });

  test("has no interval of 95 % shorter than the shortest", () => {
    fc.assert(
      fc.property(statements(of), fc.double({ min: 0.001, max: 0.049, noNaN: true }), (list, below) => {
        const { distribution } = distributionOf(sumOf(list));
        const [low, high] = shortestOf(distribution, 0.95);
        const other = distribution.upperQuantile(0.05 - below) - distribution.quantile(below);
        expect(high - low).toBeLessThanOrEqual(other + 1e-6 * distribution.standardDeviation);
        expect(distribution.distributionFunction(high) - distribution.distributionFunction(low)).toBeCloseTo(0.95, 9);
      }),
      runs,
    );
  });
});

describe("swapped terms", () => {
  test("are what the sum with normals in their place is", () => {
    fc.assert(
      fc.property(statements(symmetric), fc.integer({ min: 0, max: 31 }), (list, mask) => {
        const terms = sumOf(list);
        const places = terms.map((_, i) => i).filter((i) => mask & (1 << i));
        const found = distributionOf(terms);
        const swapped = found.swapped(new Set(places));
        const stated = terms.map((own, i) =>
          places.includes(i) ? term({ distribution: "normal", estimate: 0, standardUncertainty: own.twin }) : own,
        );
        const direct = distributionOf(stated).distribution;
        const u = found.distribution.standardDeviation;
        for (const p of PLACES) expect(Math.abs(swapped.quantile(p) - direct.quantile(p)) / u).toBeLessThan(2e-6);
      }),
      runs,
    );
  });
});

describe("discrete terms", () => {
  const coin = (size: number): LinearTerm =>
    term({ distribution: "discrete", values: [-size, size], probabilities: [0.5, 0.5] });
  const narrow = (u: number): LinearTerm => term({ distribution: "normal", estimate: 0, standardUncertainty: u });

  test.each([1e-6, 1e-3, 0.1, 1])("keep their values beside a normal of %d", (u) => {
    const { distribution, cells } = distributionOf([coin(1), narrow(u)]);
    // Half of the probability is about either value.
    const upper = distribution.upperQuantile(0.025);
    const direct = 1 + u * normalQuantileByHalf(0.025, u);
    expect(Math.abs(upper - direct)).toBeLessThan(1e-9);
    expect(cells).toBeNull();
  });

  /** z with ½·P(Z > z) + ½·P(Z > z + 2/u) = q, by bisection with the complement of the error function's integral. */
  function normalQuantileByHalf(q: number, u: number): number {
    let [low, high] = [-3, 5];
    for (let i = 0; i < 100; i++) {
      const z = (low + high) / 2;
      const above = (normalAbove(z) + normalAbove(z + 2 / u)) / 2;
      if (above > q) low = z;
      else high = z;
    }
    return (low + high) / 2;
  }

  /** P(Z > z) by Simpson's rule over the density. */
  function normalAbove(z: number): number {
    if (z > 12) return 0;
    const n = 4000;
    const step = (12 - z) / n;
    let sum = 0;
    for (let i = 0; i <= n; i++) {
      const x = z + i * step;
      sum += (i === 0 || i === n ? 1 : i % 2 === 1 ? 4 : 2) * Math.exp((-x * x) / 2);
    }
    return (sum * step) / 3 / Math.sqrt(2 * Math.PI);
  }

  test("of many values go on the lattice, with a stated error", () => {
    const many = term({
      distribution: "sample",
      values: Array.from({ length: 5000 }, (_, i) => Math.sin(i) + (i % 7) / 10),
    });
    const found = linearisedOf([many, narrow(1)], { probability: 0.95, tolerance: 1e-4 });
    expect(found.kind).toBe("distribution");
    const few = linearisedOf([many, narrow(1e-7)], { probability: 0.95, tolerance: 1e-9 });
    expect(few.kind).toBe("unavailable");
  });
});

describe("limits", () => {
  test("a probability too near 1 is told, not answered wrongly", LONG, () => {
    const terms = [
      term({ distribution: "rectangular", estimate: 0, halfWidth: 1 }),
      ...sumOf([
        { distribution: "t", estimate: 0, standardUncertainty: 1, degreesOfFreedom: 3 },
        { distribution: "t", estimate: 0, standardUncertainty: 1, degreesOfFreedom: 3 },
      ]),
    ];
    const found = linearisedOf(terms, { probability: 1 - 1e-12, tolerance: 1e-4 });
    expect(found).toMatchObject({ kind: "unavailable", because: "accuracy", wanted: 1e-4 });
  });

  test("a coefficient of 0 leaves its term out", () => {
    const { terms } = distributionOf([
      term({ distribution: "t", estimate: 0, standardUncertainty: 1, degreesOfFreedom: 1 }, 0),
      ...sumOf([{ distribution: "normal", estimate: 0, standardUncertainty: 1 }]),
    ]);
    expect(terms).toHaveLength(1);
  });
});
