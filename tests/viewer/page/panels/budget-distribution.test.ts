import { describe, expect, test } from "vitest";
import { standardDistribution } from "../../../../viewer/present/budget-distribution.ts";
import { atProbability, intervalsFromPoints } from "../../../../viewer/page/panels/chosen-probability.ts";
import { RECORDS } from "../fixed-records.ts";

describe("the distribution a budget stands for", () => {
  // JCGM 100:2008, table G.2: t_p(ν) for p = 95 % and 99 %, to the two decimals printed; ν = ∞ is the normal.
  test.each([
    [1, 0.95, 12.71],
    [1, 0.99, 63.66],
    [2, 0.95, 4.3],
    [2, 0.99, 9.92],
    [5, 0.95, 2.57],
    [5, 0.99, 4.03],
    [10, 0.95, 2.23],
    [20, 0.95, 2.09],
    [20, 0.99, 2.85],
    [50, 0.95, 2.01],
    [100, 0.95, 1.984],
    [null, 0.95, 1.96],
    [null, 0.99, 2.576],
  ] as const)("ν = %s at %f: k = %f", (ν, p, k) => {
    const half = k === 1.984 || k === 2.576 ? 0.0005 : 0.005;
    expect(Math.abs(standardDistribution(ν).quantile((1 + p) / 2) - k)).toBeLessThanOrEqual(half);
  });

  test("quantile and distribution function undo one another, in both tails", () => {
    for (const ν of [1, 2, 3, 8, 33, 500, null]) {
      const { quantile, distributionFunction } = standardDistribution(ν);
      // 60 halvings leave an interval far below 1e-12 of a probability.
      for (const p of [0.0001, 0.025, 0.3, 0.5, 0.7, 0.975, 0.9999])
        expect(distributionFunction(quantile(p))).toBeCloseTo(p, 11);
    }
  });

  test("gives back each record's own linear interval at its own probability", () => {
    for (const record of Object.values(RECORDS)) {
      for (const measurand of Object.values(record.measurands)) {
        const { probability } = record.coverage;
        const again = atProbability(
          measurand,
          record,
          intervalsFromPoints(measurand.monteCarlo.distributionFunction, probability),
        );
        // Records keep eight digits, U is their difference.
        const { estimate, expandedUncertainty: U } = measurand.linear;
        expect(Math.abs(again.linear.expandedUncertainty - U)).toBeLessThanOrEqual(
          1e-6 * U + 1e-7 * Math.abs(estimate),
        );
      }
    }
  });
});

test("the interval between recorded points is the record's own where its ends were recorded", () => {
  const { monteCarlo } = RECORDS["harrowfen/pasteuriser-72"]!.measurands.error!;
  const [low, high] = intervalsFromPoints(monteCarlo.distributionFunction, 0.95).symmetric;
  // A quantile at 2.5 % and the rank the standard takes lie a trial apart: far below the standard error of an end.
  expect(Math.abs(low - monteCarlo.intervals.symmetric[0])).toBeLessThan(monteCarlo.standardErrors.symmetric[0]);
  expect(Math.abs(high - monteCarlo.intervals.symmetric[1])).toBeLessThan(monteCarlo.standardErrors.symmetric[1]);
});
