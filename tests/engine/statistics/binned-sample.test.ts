import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { histogramOf } from "../../../engine/statistics/histogram.ts";
import { OrderedSample } from "../../../engine/statistics/ordered-sample.ts";

const sampleOf = (runs: readonly (readonly number[])[]): OrderedSample => {
  const sample = new OrderedSample();
  for (const run of runs) sample.add(Float64Array.from(run).sort());
  return sample;
};

/** Values with ties, many orders of magnitude, and both zeros. */
const value = fc.oneof(
  fc.integer({ min: -5, max: 5 }),
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  fc.double({ min: 1, max: 1 + 1e-13, noNaN: true }),
  fc.constantFrom(-0, 0, Number.MIN_VALUE, Number.MAX_VALUE, -Number.MAX_VALUE),
);
/** The second kind of list is long enough that the search over values is used. */
const runs = fc.array(fc.oneof(fc.array(value, { maxLength: 20 }), fc.array(value, { minLength: 200, maxLength: 600 })), { minLength: 1, maxLength: 6 });

describe("an ordered sample is a plain sort", () => {
  test("order statistics, counts, both tails", () => {
    fc.assert(
      fc.property(runs, (parts) => {
        const sample = sampleOf(parts);
        const sorted = Float64Array.from(parts.flat()).sort();
        expect(sample.count).toBe(sorted.length);
        if (sorted.length === 0) return;
        expect(sample.least).toBe(sorted[0]! + 0 === 0 ? sample.least : sorted[0]);
        expect(sample.greatest + 0).toBe(sorted.at(-1)! + 0);
        const ranks = [1, 2, Math.ceil(sorted.length / 2), sorted.length - 1, sorted.length].filter((r) => r >= 1 && r <= sorted.length);
        for (const rank of ranks) {
          // −0 and 0 are one value.
          expect(sample.orderStatistic(rank) + 0).toBe(sorted[rank - 1]! + 0);
          expect([...sample.lowest(rank)].map((x) => x + 0)).toEqual([...sorted.subarray(0, rank)].map((x) => x + 0));
          expect([...sample.highest(rank)].map((x) => x + 0)).toEqual([...sorted.subarray(sorted.length - rank)].map((x) => x + 0));
        }
        for (const x of [sorted[0]!, sorted[ranks[1]! - 1] ?? 0, 0, 1, sorted.at(-1)!]) {
          expect(sample.countUpTo(x)).toBe(sorted.filter((y) => y <= x).length);
        }
      }),
      { seed: 1, numRuns: 150 },
    );
  });

  test("all values equal, in many runs", () => {
    const sample = sampleOf(Array.from({ length: 5 }, () => Array.from({ length: 200 }, () => 7.5)));
    expect([1, 500, 1000].map((rank) => sample.orderStatistic(rank))).toEqual([7.5, 7.5, 7.5]);
    expect(sample.lowest(3)).toEqual(Float64Array.of(7.5, 7.5, 7.5));
    expect(sample.countUpTo(7.4)).toBe(0);
  });
});

describe("the histogram", () => {
  test("counts every value once, in its bin by a plain count", () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: -100, max: 100, noNaN: true }), { minLength: 2, maxLength: 400 }), fc.integer({ min: 1, max: 50 }), (values, bins) => {
        const { low, width, counts, below, above } = histogramOf(sampleOf([values]), bins);
        expect(counts.reduce((sum, n) => sum + n, 0) + below + above).toBe(values.length);
        if (counts.length === 1) return;
        // Bin i holds low + i·width < x ≤ low + (i + 1)·width; the first takes its lower edge too, the last ends at the
        // upper rank itself, which low + bins·width meets only to rounding.
        for (let i = 1; i < counts.length - 1; i++) {
          expect(counts[i]).toBe(values.filter((x) => x > low + i * width && x <= low + (i + 1) * width).length);
        }
      }),
      { seed: 1 },
    );
  });

  test("a sample of one value is one bin", () => {
    expect(histogramOf(sampleOf([[3, 3, 3]]), 10)).toMatchObject({ counts: [3], below: 0, above: 0 });
  });
});
