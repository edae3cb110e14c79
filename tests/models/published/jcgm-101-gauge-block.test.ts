// JCGM 101:2008, 9.5 (gauge block), inputs of table 10, results of table 11, run from examples/published/gauge-block.json.
// Printed: linear 838 nm, u = 32 nm, 99 % [745, 931]; Monte Carlo 838 nm, u = 36 nm, [745, 932], its
// shortest interval (as reworked in Metrology 2022, 2(1), 33–45); the symmetric one is the same at this rounding. Computed independently from the characteristic functions of the inputs:
// u = 35.808079 nm, 99 % [744.348, 931.652]. Scale of the 99 % endpoints times √M: 189 nm.
import { expect, test } from "vitest";
import { runExample } from "../../read-example.ts";

const { linear, monteCarlo, validation, explanation } = runExample("published/gauge-block").measurands["deviation"]!;

test("linear budget", () => {
  expect(linear.estimate).toBeCloseTo(838, 6);
  expect(linear.standardUncertainty.toFixed(0)).toBe("32");
});

test("Monte Carlo", () => {
  expect(Math.abs(monteCarlo.estimate! - 838)).toBeLessThan((5 * 36) / 1000);
  expect(Math.abs(monteCarlo.standardUncertainty! - 35.808079)).toBeLessThan(0.15);
  expect(monteCarlo.standardUncertainty!.toFixed(0)).toBe("36");
  expect(Math.abs(monteCarlo.intervals.symmetric[0] - 744.348)).toBeLessThan((5 * 189) / 1000);
  expect(Math.abs(monteCarlo.intervals.symmetric[1] - 931.652)).toBeLessThan((5 * 189) / 1000);
});

test("not validated to two digits, for the products of temperature and expansion and for few degrees of freedom", () => {
  expect(validation).toMatchObject({ numericalTolerance: 0.5, validated: false });
  expect(explanation!.parts.curvature.inputs).toEqual(expect.arrayContaining(["expansionDifference", "cycling"]));
  expect(explanation!.parts.degreesOfFreedom.inputs[0]).toBe("standardLength");
});
