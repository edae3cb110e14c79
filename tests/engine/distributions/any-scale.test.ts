// A distribution scales with its figures: at any scale that a double has, it is that at scale 1 times the scale. Scales are
// powers of two, so that no figure is rounded.
import { describe, expect, test } from "vitest";
import { type Statement } from "../../../engine/index.ts";
import { distributionKinds, readStatement } from "../../../engine/internal.ts";

type Stated = (scale: number) => object;
const kinds: Readonly<Record<string, Stated>> = {
  normal: (s) => ({ estimate: s, standardUncertainty: s }),
  rectangular: (s) => ({ estimate: s, halfWidth: s }),
  triangular: (s) => ({ estimate: s, halfWidth: s }),
  trapezoidal: (s) => ({ estimate: s, halfWidth: s, topRatio: 0.25 }),
  "curvilinear-trapezoid": (s) => ({ estimate: s, halfWidth: s, limitHalfWidth: s / 8 }),
  arcsine: (s) => ({ estimate: s, halfWidth: s }),
  t: (s) => ({ estimate: s, standardUncertainty: s, degreesOfFreedom: 5 }),
  readings: (s) => ({ values: [s, 1.25 * s, 1.5 * s, 1.5 * s] }),
  exponential: (s) => ({ estimate: s }),
  gamma: (s) => ({ shape: 2, scale: s }),
  beta: (s) => ({ lower: 0, upper: 8 * s, estimate: 3 * s, standardUncertainty: s }),
  "log-normal": (s) => ({ estimate: s, standardUncertainty: s / 2 }),
  "truncated-normal": (s) => ({ estimate: s, standardUncertainty: s, lower: 0 }),
  "asymmetric-triangular": (s) => ({ lower: 0, mode: s / 4, upper: 2 * s }),
  "asymmetric-rectangular": (s) => ({ lower: 0, estimate: s / 8, upper: s }),
  discrete: (s) => ({ values: [s, 2 * s], probabilities: [0.5, 0.5] }),
  sample: (s) => ({ values: [s, 2 * s, 5 * s] }),
  "tabulated-density": (s) => ({ values: [0, s, 2 * s], densities: [0, 1 / s, 0] }),
  "tabulated-distribution": (s) => ({ values: [0, s, 2 * s], probabilities: [0, 0.25, 1] }),
  mixture: (s) => ({
    components: [
      { weight: 1, statement: { distribution: "normal", estimate: s, standardUncertainty: s } },
      {
        weight: 2,
        statement: {
          distribution: "mixture",
          components: [{ weight: 1, statement: { distribution: "rectangular", estimate: 2 * s, halfWidth: s } }],
        },
      },
    ],
  }),
};
/** Kinds that do not scale: a count of events, an exact value. */
const OTHERS = ["poisson", "constant"];
const at = (kind: string, scale: number) =>
  readStatement({ distribution: kind, ...kinds[kind]!(scale) } as Statement, "x");

test("every kind is here", () =>
  expect([...Object.keys(kinds), ...OTHERS].toSorted()).toEqual([...distributionKinds.keys()].toSorted()));

describe.each(Object.keys(kinds))("%s", (kind) => {
  const plain = at(kind, 1);
  test.each([2 ** -1000, 2 ** -541, 2 ** -300, 2 ** 300, 2 ** 532, 2 ** 1000])("at %d", (scale) => {
    const { distribution, budget } = at(kind, scale);
    const scaled = (value: number | null, reference: number | null): void =>
      expect(value! / scale / reference!).toBeCloseTo(1, 9);
    scaled(distribution.mean, plain.distribution.mean);
    scaled(distribution.standardDeviation, plain.distribution.standardDeviation);
    scaled(budget.estimate, plain.budget.estimate);
    scaled(budget.standardUncertainty, plain.budget.standardUncertainty);
    for (const p of [0.3, 0.5, 0.975]) {
      const [x, y] = [plain, { distribution }].map((of) => of.distribution.quantile(p)) as [number, number];
      scaled(y, x);
      expect(distribution.distributionFunction(y)).toBeCloseTo(plain.distribution.distributionFunction(x), 9);
      const density = distribution.discrete === true ? distribution.density(y) : distribution.density(y) * scale;
      expect(density / plain.distribution.density(x)).toBeCloseTo(1, 6);
    }
  });
});

test("a problem is told with the figures as they were stated", () => {
  const stated = { distribution: "tabulated-density", values: [0, 2e160, 1e160], densities: [0, 1, 0] } as Statement;
  expect(() => readStatement(stated, "x")).toThrow(/2e\+160/);
});
