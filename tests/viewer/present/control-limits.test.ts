import { expect, test } from "vitest";
import { controlLimits, FEWEST_FOR_LIMITS } from "../../../viewer/present/control-limits.ts";

// NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2: flow rate, ten batches; as printed there.
const FLOW = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];

test("limits of the handbook's example, to its printed digits", () => {
  const { centre, upper, lower } = controlLimits(FLOW)!;
  expect(centre).toBeCloseTo(50.81, 10);
  expect(Math.abs(upper - 55.8041)).toBeLessThan(5e-5);
  expect(Math.abs(lower - 45.8159)).toBeLessThan(5e-5);
});

test("values moved far from zero have limits moved as far", () => {
  const { centre, upper } = controlLimits(FLOW.map((value) => value + 1e9))!;
  expect(centre - 1e9).toBeCloseTo(50.81, 6);
  expect(upper - 1e9).toBeCloseTo(55.8041, 4);
});

test("too few values have none; those that differ by rounding alone lie within", () => {
  expect(controlLimits(FLOW.slice(0, FEWEST_FOR_LIMITS - 1))).toBeNull();
  const { lower, upper } = controlLimits([2, 2, 2, 2, 2, 2, 2, 2 + 1e-15])!;
  expect(lower).toBeLessThan(2);
  expect(upper).toBeGreaterThan(2 + 1e-15);
  expect(upper - lower).toBeLessThan(1e-8);
});
