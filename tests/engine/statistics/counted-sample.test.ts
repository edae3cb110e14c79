import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { shortestInterval, symmetricInterval } from "../../../engine/coverage/coverage-interval.ts";
import { normalQuantile } from "../../../engine/numerics/standard-normal.ts";
import { blockGenerator } from "../../../engine/random/block-generator.ts";
import { CountedSample } from "../../../engine/statistics/counted-sample.ts";
import { gridOver } from "../../../engine/statistics/grid.ts";
import { sortedSample } from "../../../engine/statistics/sample.ts";

const value = fc.oneof(fc.integer({ min: -5, max: 5 }), fc.double({ min: -8, max: 8, noNaN: true }));

describe("a counted sample bounds a plain sort", () => {
  test("each value lies within the stated resolution of its rank; counts at edges of bins are exact", () => {
    fc.assert(
      fc.property(fc.array(value, { minLength: 5, maxLength: 500 }), fc.constantFrom(16, 256), (values, bins) => {
        const grid = gridOver(Float64Array.from(values.slice(0, 100)), bins);
        const sample = new CountedSample(grid);
        sample.add(Float64Array.from(values.slice(0, 60)));
        sample.add(Float64Array.from(values.slice(60)));
        const sorted = sortedSample(Float64Array.from(values).sort());
        expect([sample.count, sample.least, sample.greatest]).toEqual([sorted.count, sorted.least, sorted.greatest]);
        for (let rank = 1; rank <= values.length; rank++) {
          // Margin for the rounding of bin edges.
          expect(Math.abs(sample.orderStatistic(rank) - sorted.orderStatistic(rank))).toBeLessThanOrEqual(
            sample.resolution(rank) + 1e-12,
          );
        }
        for (const rank of [2, 3])
          expect(sample.orderStatistic(rank)).toBeGreaterThanOrEqual(sample.orderStatistic(rank - 1));
        expect(sample.countUpTo(sample.greatest)).toBe(values.length);
        expect(sample.countUpTo(sample.least - 1)).toBe(0);
      }),
      { seed: 1, numRuns: 200 },
    );
  });

  test("the shortest span is within two bins of the true one", () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.integer({ min: -1e6, max: 1e6 }).map((n) => n / 1e6),
          { minLength: 50, maxLength: 500 },
        ),
        (values) => {
          const array = Float64Array.from(values);
          const grid = gridOver(array, 64);
          const sample = new CountedSample(grid);
          sample.add(array);
          const spanned = Math.floor(0.8 * values.length);
          const [low, high] = sample.shortestSpan(spanned);
          const [trueLow, trueHigh] = sortedSample(array.slice().sort()).shortestSpan(spanned);
          expect(Math.abs(high - low - (trueHigh - trueLow))).toBeLessThanOrEqual(2 * grid.width + 1e-12);
        },
      ),
      { seed: 2 },
    );
  });

  test("200 000 normals on 131 072 bins: ends within a bin of those of the sort", () => {
    const all = new Float64Array(200_000);
    const open = blockGenerator.open("1", "x");
    for (let block = 0; block < 80; block++)
      open(block).normals(0, all.subarray(2500 * block, 2500 * (block + 1)), 2500);
    const grid = gridOver(all.subarray(0, 2500), 131_072);
    const counted = new CountedSample(grid);
    for (let i = 0; i < all.length; i += 10_000) counted.add(all.subarray(i, i + 10_000));
    const sorted = sortedSample(all.slice().sort());
    for (const p of [0.9, 0.95, 0.99]) {
      const [a, b] = [symmetricInterval(counted, p), symmetricInterval(sorted, p)];
      const [c, d] = [shortestInterval(counted, p), shortestInterval(sorted, p)];
      for (const i of [0, 1]) expect(Math.abs(a[i]! - b[i]!)).toBeLessThan(grid.width);
      expect(Math.abs(c[1] - c[0] - (d[1] - d[0]))).toBeLessThan(2 * grid.width);
      // Five standard errors of the rank law about the true quantile.
      const z = normalQuantile((1 + p) / 2);
      expect(Math.abs(a[1] - z)).toBeLessThan(
        (5 * Math.sqrt(((1 - p) * (1 + p)) / 4 / 200_000) * Math.sqrt(2 * Math.PI)) / Math.exp((-z * z) / 2),
      );
    }
  });
});
