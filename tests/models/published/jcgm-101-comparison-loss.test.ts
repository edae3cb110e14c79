// JCGM 101:2008, 9.4 (comparison loss), tables 8 and 9, run from examples/published/comparison-loss-*.json.
// The reference here is the closed form of the mean, x₁² + 2u², and variance,
// 4u²x₁² + 4u⁴(1 + r²), and shortest intervals from the exact distribution function (computed independently).
// All figures are in 10⁻⁶.
import { describe, expect, test } from "vitest";
import { runExample } from "../../read-example.ts";

describe.each([
  { id: "00", u: 50, mean: 50, shortest: [0, 149.78661], linear: 0, printed: { u: 50, ends: [0, 150] } },
  { id: "10", u: 111.803, mean: 150, shortest: [0, 366.005], linear: 100, printed: { u: 112, ends: [0, 367] } },
  {
    id: "50",
    u: 502.494,
    mean: 2550,
    shortest: [1593.57, 3548.57],
    linear: 500,
    printed: { u: 502, ends: [1590, 3543] },
  },
  { id: "00-correlated", u: 67.268, mean: 50, shortest: [0, 185.056], linear: 0, printed: { u: 67, ends: [0, 185] } },
  {
    id: "10-correlated",
    u: 120.52,
    mean: 150,
    shortest: [12.65, 397.48],
    linear: 100,
    printed: { u: 121, ends: [13, 398] },
  },
  {
    id: "50-correlated",
    u: 504.505,
    mean: 2550,
    shortest: [1624.42, 3554.68],
    linear: 500,
    printed: { u: 504, ends: [1628, 3555] },
  },
])("comparison-loss-$id", ({ id, u, mean, shortest, linear, printed }) => {
  const {
    linear: budget,
    monteCarlo,
    validation,
    secondOrder,
  } = runExample(`published/comparison-loss-${id}`).measurands["loss"]!;
  const scaled = (value: number): number => 1e6 * value;

  test("estimate and standard uncertainty within five standard errors of the closed form", () => {
    expect(Math.abs(scaled(monteCarlo.estimate!) - mean)).toBeLessThan(5e6 * monteCarlo.standardErrors.estimate!);
    expect(Math.abs(scaled(monteCarlo.standardUncertainty!) - u)).toBeLessThan(
      5e6 * monteCarlo.standardErrors.standardUncertainty!,
    );
    expect(Math.abs(scaled(monteCarlo.standardUncertainty!) - printed.u)).toBeLessThan(
      0.5 + 5e6 * monteCarlo.standardErrors.standardUncertainty!,
    );
  });

  test("shortest 95 % interval", () => {
    // From 0 up the interval ends at the 95 % quantile: five standard errors by the rank law, with the density from the
    // quantiles beside it. Elsewhere its position is the minimum of a flat width: 2 % of u.
    const quantile = (p: number): number => scaled(monteCarlo.distributionFunction.find(([at]) => at === p)![1]);
    const density = 0.02 / (quantile(0.96) - quantile(0.94));
    const tolerance = shortest[0] === 0 ? (5 * Math.sqrt((0.95 * 0.05) / monteCarlo.trials)) / density : 0.02 * u;
    monteCarlo.intervals.shortest.forEach((end, i) => {
      expect(Math.abs(scaled(end) - shortest[i]!)).toBeLessThan(tolerance);
      // The document's own single run: 6 at x₁ = 0.050, 1.5 elsewhere.
      expect(Math.abs(scaled(end) - printed.ends[i]!)).toBeLessThan(tolerance + (mean === 2550 ? 6 : 1.5));
    });
  });

  test("linear budget: u = 2|x₁|u(x₁), and it is not validated", () => {
    expect(scaled(budget.standardUncertainty)).toBeCloseTo(linear, 6);
    expect(validation.validated).toBe(false);
  });

  test("second order: 4u²x₁² + 4u⁴ and a bias of 2u² for independent inputs; none is offered for correlated ones", () => {
    if (id.endsWith("correlated")) {
      expect(secondOrder).toBeNull();
      return;
    }
    expect(scaled(secondOrder!.standardUncertainty)).toBeCloseTo(Math.sqrt(linear * linear + 2500), 4);
    expect(scaled(secondOrder!.bias)).toBeCloseTo(50, 6);
  });
});
