import { describe, expect, it } from "vitest";
import { deviationCoefficients } from "../../../../models/platinum/its90/deviation-coefficients.ts";
import { fixedPoints, type FixedPointName } from "../../../../models/platinum/its90/fixed-points.ts";
import { propagatedUncertainty, propagation } from "../../../../models/platinum/its90/propagation.ts";
import { referenceSlope } from "../../../../models/platinum/its90/reference-function.ts";
import {
  coefficientNames,
  deviationSlope,
  subRangeOf,
  subRanges,
} from "../../../../models/platinum/its90/sub-ranges.ts";
import { ratioAt, temperatureFromRatio } from "../../../../models/platinum/its90/thermometer.ts";
import computed from "../../../reference/platinum-computed.json" with { type: "json" };

describe("propagation of fixed-point errors", () => {
  // platinum.py refits the thermometer with each point displaced, in 50-digit arithmetic; here the equations are
  // differentiated. W has 16 digits, its curvature within the step of the reference 1e-14 K none: 1e-9 is ample.
  it.each(computed.propagation)("sub-range $subRange at $t °C", (row) => {
    const subRange = subRangeOf(row.subRange);
    const T = row.t + 273.15;
    const common = propagation(subRange, row.coefficients, T);
    for (const [name, value] of Object.entries(row.points) as [FixedPointName, number][]) {
      expect(Math.abs(common.points.get(name)! - value)).toBeLessThan(1e-7);
    }
    expect(Math.abs(common.triplePoint - row.tripleCommon)).toBeLessThan(1e-7);
    const anew = propagation(subRange, row.coefficients, T, "remeasured");
    expect(Math.abs(anew.triplePoint - row.tripleCalibration)).toBeLessThan(1e-7);
    expect(Math.abs(anew.triplePointInUse - row.tripleInUse)).toBeLessThan(1e-7);
  });

  it("does the same for every sub-range as refitting in double precision, sub-range 6 above aluminium included", () => {
    for (const subRange of Object.values(subRanges)) {
      const given = coefficientNames(subRange).map((name) => {
        const i = Number(name.slice(1)) + (subRange.number === "1" ? 2 : 0);
        return i > 0 ? 1e-5 / 7 ** i : { a: -2.4e-4, b: -1.2e-5, c: 1.5e-6, d: 2e-5, ratioAtAl: 3.3754 }[name]!;
      });
      if (subRange.aboveAluminium)
        given[4] = ratioAt(subRange, [...given.slice(0, 4), 3.3754], fixedPoints.Al.temperature);
      const measured = Object.fromEntries(
        subRange.points.map((name) => [name, ratioAt(subRange, given, fixedPoints[name].temperature)]),
      ) as Record<FixedPointName, number>;
      for (const share of [0.15, 0.5, 0.9]) {
        const T = subRange.low + share * (subRange.high - subRange.low);
        const W = ratioAt(subRange, given, T);
        const found = propagation(subRange, given, T);
        for (const name of subRange.points) {
          const w = measured[name];
          const slope = referenceSlope(fixedPoints[name].temperature) / (1 - deviationSlope(subRange, given, w));
          const h = 1e-3;
          const t = (sign: number): number =>
            temperatureFromRatio(
              subRange,
              deviationCoefficients(subRange, { ...measured, [name]: w + sign * h * slope }),
              W,
            );
          // Central difference over 1 mK: curvature and rounding each below 1e-5 of the largest factor.
          expect(Math.abs((t(1) - t(-1)) / (2 * h) - found.points.get(name)!)).toBeLessThan(
            1e-5 * Math.max(1, Math.abs(found.points.get(name)!)),
          );
        }
      }
    }
  });

  it("gives back the uncertainty of a fixed point at that point, and none of the others'", () => {
    const found = propagation(subRanges["8"], [-2.3e-4, -1e-5], fixedPoints.Zn.temperature);
    const u = propagatedUncertainty(found, { points: { Sn: 0.5e-3, Zn: 0.7e-3 }, triplePoint: 0.1e-3 });
    expect(u).toBeCloseTo(0.7e-3, 9);
  });

  it("takes the correlation through R(273.16 K) into account", () => {
    const T = 134 + 273.15;
    const c = [-2.3e-4, -1e-5];
    const only = { points: { Sn: 0, Zn: 0 }, triplePoint: 1e-3 };
    // platinum.py: 0.287 K/K where one value stands under every ratio; 1.300 for the calibration alone, 1.587 in use.
    expect(propagatedUncertainty(propagation(subRanges["8"], c, T), only)).toBeCloseTo(0.287088e-3, 8);
    const anew = propagation(subRanges["8"], c, T, "remeasured");
    expect(propagatedUncertainty(anew, { ...only, triplePointInUse: 1e-3 })).toBeCloseTo(
      Math.hypot(1.3004, 1.58749) * 1e-3,
      7,
    );
  });

  it("refuses temperatures outside the sub-range and uncertainties that are none", () => {
    expect(() => propagation(subRanges["8"], [0, 0], 700)).toThrow(
      /T: got 700; expected a temperature from 273.15 K to 692.677 K, sub-range 8 of ITS-90/,
    );
    expect(() => propagation(subRanges["8"], [0], 400)).toThrow(/coefficients: got 1; expected 2 numbers/);
    const found = propagation(subRanges["8"], [0, 0], 400);
    expect(() => propagatedUncertainty(found, { points: { Sn: 1e-3 }, triplePoint: 1e-4 })).toThrow(
      /points.Zn: got nothing/,
    );
    expect(() => propagatedUncertainty(found, { points: { Sn: 1e-3, Zn: -1 }, triplePoint: 1e-4 })).toThrow(
      /points.Zn: got -1/,
    );
  });
});
