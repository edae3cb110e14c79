import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { binnedRun } from "../../../engine/statistics/binned-run.ts";
import { BinnedSample } from "../../../engine/statistics/binned-sample.ts";
import { binOf, gridOver } from "../../../engine/statistics/grid.ts";
import { histogramOf } from "../../../engine/statistics/histogram.ts";
import { sortedSample } from "../../../engine/statistics/sample.ts";

/** A sample of runs, on a grid made from the first run alone, as a study's is from its first block. */
const sampleOf = (runs: readonly (readonly number[])[], bins = 64): BinnedSample => {
  const grid = gridOver(Float64Array.from(runs[0]!), bins);
  const sample = new BinnedSample(grid);
  for (const run of runs) sample.add(binnedRun(Float64Array.from(run), grid, new Uint16Array(run.length)));
  return sample;
};

/** Values with ties, many orders of magnitude, and both zeros. */
const value = fc.oneof(
  fc.integer({ min: -5, max: 5 }),
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  fc.double({ min: 1, max: 1 + 1e-13, noNaN: true }),
  fc.constantFrom(-0, 0, Number.MIN_VALUE, Number.MAX_VALUE, -Number.MAX_VALUE),
);
/** The second kind of list fills bins enough that they are searched, not sorted. */
const runs = fc.array(
  fc.oneof(fc.array(value, { minLength: 1, maxLength: 20 }), fc.array(value, { minLength: 200, maxLength: 600 })),
  {
    minLength: 1,
    maxLength: 6,
  },
);

describe("a binned sample is a plain sort", () => {
  test("order statistics, one and many, counts, extremes, stretches", () => {
    fc.assert(
      fc.property(runs, fc.constantFrom(1, 7, 64, 1024), (parts, bins) => {
        const sample = sampleOf(parts, bins);
        const sorted = Float64Array.from(parts.flat(), (x) => x + 0).sort();
        const plain = sortedSample(sorted);
        expect([sample.count, sample.least, sample.greatest]).toEqual([plain.count, plain.least, plain.greatest]);
        const ranks = [1, 2, Math.ceil(sorted.length / 2), sorted.length - 1, sorted.length].filter(
          (r) => r >= 1 && r <= sorted.length,
        );
        expect(sample.orderStatistics(ranks)).toEqual(ranks.map((rank) => sorted[rank - 1]));
        for (const rank of ranks) {
          expect(sample.between(rank, sorted.length)).toEqual(sorted.slice(rank - 1));
          expect(sample.between(1, rank)).toEqual(sorted.slice(0, rank));
          expect(sample.orderStatistic(rank)).toBe(sorted[rank - 1]);
        }
        const xs = [sorted[0]!, 0, 1, sorted.at(-1)!].sort((a, b) => a - b);
        expect(sample.countsUpTo(xs)).toEqual(xs.map((x) => sorted.filter((y) => y <= x).length));
        expect(plain.countsUpTo(xs)).toEqual(sample.countsUpTo(xs));
      }),
      { seed: 1, numRuns: 200 },
    );
  });

  test("near order statistics rise, and are within a bin of the exact ones", () => {
    const values = Array.from({ length: 5000 }, (_, i) => Math.sin(i * 12.9898) * 3 + Math.sin(i * 78.233));
    const sample = sampleOf([values.slice(0, 2500), values.slice(2500)], 64);
    const ranks = Array.from({ length: 5000 }, (_, i) => i + 1);
    const near = sample.nearOrderStatistics(ranks);
    const width = gridOver(Float64Array.from(values.slice(0, 2500)), 64).width;
    sample.orderStatistics(ranks).forEach((exact, i) => expect(Math.abs(near[i]! - exact)).toBeLessThanOrEqual(width));
    for (let i = 1; i < near.length; i++) expect(near[i]! - near[i - 1]!).toBeGreaterThanOrEqual(0);
  });

  test("the shortest span is that of looking at every pair", () => {
    const tied = fc.array(fc.integer({ min: 0, max: 30 }), { minLength: 30, maxLength: 300 });
    const smooth = fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 30, maxLength: 300 });
    fc.assert(
      fc.property(
        fc.oneof(tied, smooth),
        fc.constantFrom(3, 16, 200),
        fc.double({ min: 0.1, max: 0.95, noNaN: true }),
        (values, bins, part) => {
          const spanned = Math.max(1, Math.floor(part * (values.length - 1)));
          const sorted = Float64Array.from(values, (x) => x + 0).sort();
          expect(sampleOf([values.slice(0, 20), values.slice(20)], bins).shortestSpan(spanned)).toEqual(
            sortedSample(sorted).shortestSpan(spanned),
          );
        },
      ),
      { seed: 2, numRuns: 400 },
    );
  });

  test("all values equal, in many runs", () => {
    const sample = sampleOf(Array.from({ length: 5 }, () => Array.from({ length: 200 }, () => 7.5)));
    expect([1, 500, 1000].map((rank) => sample.orderStatistic(rank))).toEqual([7.5, 7.5, 7.5]);
    expect(sample.shortestSpan(900)).toEqual([7.5, 7.5]);
    expect(sample.countUpTo(7.4)).toBe(0);
  });

  test("a lone run's starts are not written to when another comes", () => {
    const grid = gridOver(Float64Array.of(1, 2, 3, 4), 8);
    const first = binnedRun(Float64Array.of(1, 2, 3, 4), grid, new Uint16Array(4));
    const before = first.starts.slice();
    const sample = new BinnedSample(grid, first);
    sample.add(binnedRun(Float64Array.of(2.5), grid, new Uint16Array(1)));
    expect(first.starts).toEqual(before);
    expect(sample.orderStatistics([1, 2, 3, 4, 5])).toEqual([1, 2, 2.5, 3, 4]);
  });
});

describe("a grid", () => {
  test("bins never fall as values rise, whatever the values", () => {
    fc.assert(
      fc.property(
        fc.array(value, { minLength: 1, maxLength: 50 }),
        fc.array(value, { minLength: 2, maxLength: 50 }),
        (seen, asked) => {
          const grid = gridOver(Float64Array.from(seen), 32);
          const bins = asked.toSorted((a, b) => a - b).map((x) => binOf(grid, x));
          for (const [i, bin] of bins.entries()) {
            expect(Number.isInteger(bin) && bin >= 0 && bin < 32).toBe(true);
            if (i > 0) expect(bin).toBeGreaterThanOrEqual(bins[i - 1]!);
          }
        },
      ),
      { seed: 3 },
    );
  });

  test("one stray value does not coarsen it", () => {
    const values = Float64Array.from({ length: 1000 }, (_, i) => (i === 0 ? 1e9 : i / 1000));
    expect(gridOver(values, 1000).width).toBeLessThan(0.03);
  });
});

describe("the histogram", () => {
  test("counts every value once, in its bin by a plain count", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -100, max: 100, noNaN: true }), { minLength: 2, maxLength: 400 }),
        fc.integer({ min: 1, max: 50 }),
        (values, bins) => {
          const { low, width, counts, below, above } = histogramOf(sampleOf([values]), bins);
          expect(counts.reduce((sum, n) => sum + n, 0) + below + above).toBe(values.length);
          if (counts.length === 1) return;
          // Bin i holds low + i·width < x ≤ low + (i + 1)·width; the first takes its lower edge too, the last ends at the
          // upper rank itself, which low + bins·width meets only to rounding.
          for (let i = 1; i < counts.length - 1; i++) {
            expect(counts[i]).toBe(values.filter((x) => x > low + i * width && x <= low + (i + 1) * width).length);
          }
        },
      ),
      { seed: 1 },
    );
  });

  test("a sample of one value is one bin", () => {
    expect(histogramOf(sampleOf([[3, 3, 3]]), 10)).toMatchObject({ counts: [3], below: 0, above: 0 });
  });
});
