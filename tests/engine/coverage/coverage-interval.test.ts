import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { coverageOf } from "../../../engine/coverage/coverage.ts";
import {
  rankStandardError,
  shortestInterval,
  spannedRanks,
  symmetricInterval,
  symmetricRank,
} from "../../../engine/coverage/coverage-interval.ts";
import { binnedRun } from "../../../engine/statistics/binned-run.ts";
import { BinnedSample } from "../../../engine/statistics/binned-sample.ts";
import { gridOver } from "../../../engine/statistics/grid.ts";

const sampleOf = (values: Iterable<number>): BinnedSample => {
  const array = Float64Array.from(values);
  const grid = gridOver(array);
  return new BinnedSample(grid, binnedRun(array, grid, new Uint16Array(array.length)));
};

/** JCGM 101:2008, 7.7.2: q = pM or the integer part of pM + ½; r = (M − q)/2 or that of (M − q + 1)/2. */
describe("ranks of coverage intervals: JCGM 101, 7.7", () => {
  test.each([
    [100_000, 0.95, 95_000, 2500],
    [10_001, 0.95, 9501, 250],
    [1_000_000, 0.9973, 997_300, 1350],
    [12, 0.95, 11, 1],
  ])("M = %d, p = %d: q = %d, r = %d", (trials, probability, q, r) => {
    expect(spannedRanks(trials, probability)).toBe(q);
    expect(symmetricRank(trials, q)).toBe(r);
  });

  test("a whole pM is found for every p of two or four decimals, whatever binary arithmetic makes of it", () => {
    for (let hundredths = 51; hundredths < 100; hundredths++) {
      for (const trials of [10_000, 100_000, 1_000_000, 20_000_000])
        expect(spannedRanks(trials, hundredths / 100)).toBe((hundredths * trials) / 100);
    }
    for (let p = 5001; p < 10_000; p += 7) expect(spannedRanks(1_000_000, p / 10_000)).toBe(p * 100);
  });
});

describe("intervals of a sample", () => {
  test("agree with all intervals written out", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -10, max: 10, noNaN: true }), { minLength: 20, maxLength: 200 }),
        fc.constantFrom(0.5, 0.9, 0.95),
        (values, p) => {
          const y = values.toSorted((a, b) => a - b);
          const q = spannedRanks(y.length, p);
          const r = symmetricRank(y.length, q);
          expect(symmetricInterval(sampleOf(values), p)).toEqual([y[r - 1], y[r + q - 1]]);
          const widths = y.slice(0, y.length - q).map((low, i) => y[i + q]! - low);
          const [low, high] = shortestInterval(sampleOf(values), p);
          expect(high - low).toBe(Math.min(...widths));
          expect(widths.indexOf(high - low)).toBe(y.findIndex((value, i) => value === low && y[i + q] === high));
        },
      ),
      { seed: 1 },
    );
  });

  test("too few values for the probability: the whole range", () => {
    expect(shortestInterval(sampleOf([1, 2, 3]), 0.99)).toEqual([1, 3]);
    expect(symmetricInterval(sampleOf([1, 2, 3]), 0.99)).toEqual([1, 3]);
  });

  test("the standard error of an end is that of the rank law: √(a(1 − a)/M)/g (JCGM 101, 7.7; general statistics)", () => {
    // Evenly spread values have g = 1 exactly.
    const M = 100_000;
    const sample = sampleOf(Array.from({ length: M }, (_, i) => (i + 0.5) / M));
    for (const a of [0.025, 0.1, 0.5, 0.975]) {
      const exact = Math.sqrt((a * (1 - a)) / M);
      // Ranks are whole: up to half a rank is lost.
      expect(Math.abs(rankStandardError(sample, Math.round(a * M)) - exact)).toBeLessThanOrEqual(0.5 / M + 1e-12);
    }
  });
});

describe("coverage asked for", () => {
  test("k for a probability is t at the truncated degrees of freedom (JCGM 100, G.4.1, G.6.4; table G.2)", () => {
    const { factor } = coverageOf({ probability: 0.95, interval: "symmetric" });
    expect(factor(Infinity)).toBeCloseTo(1.959964, 6);
    expect(factor(16.66)).toBeCloseTo(2.119905, 6);
    expect(factor(16)).toBe(factor(16.99));
    // Below 1 there is no whole number to cut down to: t at ν itself (its upper tail integrated by hand to 0.025).
    expect(factor(0.9)).toBeCloseTo(16.580058, 6);
  });

  test("a fixed k claims the probability of a normal distribution (JCGM 100, table G.1: k = 2 is 95.45 %)", () => {
    const coverage = coverageOf({ factor: 2, interval: "symmetric" });
    expect(coverage.factor(3)).toBe(2);
    expect(coverage.probability).toBeCloseTo(0.9545, 4);
    expect(coverageOf({ factor: 3, interval: "symmetric" }).probability).toBeCloseTo(0.9973, 4);
  });
});
