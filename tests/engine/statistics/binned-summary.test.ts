// A batch's bins and moments by WebAssembly and by the plain loops that it stands for: identical, bit for bit.
import * as fc from "fast-check";
import { expect, test } from "vitest";
import { binnedRun, ownRoom } from "../../../engine/statistics/binned-run.ts";
import { binnedSummary } from "../../../engine/statistics/binned-summary.ts";
import { gridOver, type Grid } from "../../../engine/statistics/grid.ts";
import { MOST_VALUES, summariesOfThread } from "../../../engine/statistics/kernel/summaries.ts";
import { momentsOf } from "../../../engine/statistics/moments.ts";

test("this host has the module, so that what follows compares two things", () =>
  expect(summariesOfThread()).not.toBeNull());

/** Values about `middle`, some far out, some equal, some zeros of either sign. */
const valuesOf = (count: number, seed: number, middle: number, spread: number): Float64Array => {
  let state = seed;
  return Float64Array.from({ length: count }, () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    const u = state / 2 ** 32 - 0.5;
    const kind = state % 17;
    return kind === 0 ? middle + spread * u * 1e4 : kind === 1 ? middle : kind === 2 ? -0 : middle + spread * u;
  });
};

const bytesOf = ({ buffer, byteOffset, byteLength }: ArrayBufferView): Buffer =>
  Buffer.from(buffer, byteOffset, byteLength);

function same(values: Float64Array, grid: Grid): void {
  const places = new Uint16Array(values.length);
  const { run, moments } = binnedSummary(values, grid, places, ownRoom);
  const plain = binnedRun(values, grid, places);
  expect(moments).toEqual(momentsOf(values));
  expect(bytesOf(run.starts).equals(bytesOf(plain.starts)) && run.starts.length).toBe(grid.bins + 1);
  expect(bytesOf(run.values).equals(bytesOf(plain.values)) && run.values.length).toBe(values.length);
}

test("any values, grids and numbers of them", () => {
  const place = fc.record({
    count: fc.oneof(fc.constantFrom(1, 2, 2500, 10_000), fc.integer({ min: 1, max: 500 })),
    seed: fc.nat(),
    middle: fc.constantFrom(0, 134, -1e12, 1e-300),
    spread: fc.constantFrom(0, 1e-6, 1, 1e150, 1e-200),
    bins: fc.constantFrom(1, 7, 4096),
  });
  fc.assert(
    fc.property(place, ({ count, seed, middle, spread, bins }) => {
      const values = valuesOf(count, seed, middle, spread);
      same(values, gridOver(values.subarray(0, Math.ceil(count / 3)), bins));
    }),
    { seed: 1, numRuns: 150 },
  );
});

test.each([MOST_VALUES, MOST_VALUES + 2])(
  "%d values, of which the module takes as many as it has room for",
  (count) => {
    const values = valuesOf(count, 5, 1, 1);
    same(values, gridOver(values));
  },
);

test("a grid of no width, and values beyond it by more than a double has", () => {
  const values = Float64Array.from([1e308, -1e308, 0, 3]);
  same(values, gridOver(Float64Array.from([2, 2])));
  same(values, { bins: 4096, low: -1e308, width: 1e300, density: 1e300 });
});
