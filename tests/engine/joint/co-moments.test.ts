// Sums of products of deviations: by the module in WebAssembly and by the plain loops, identical, bit for bit.
import { expect, test } from "vitest";
import { coMomentsOf } from "../../../engine/joint/co-moments.ts";
import { summariesOfThread } from "../../../engine/statistics/kernel/summaries.ts";

const columnsOf = (count: number): Float64Array[] => {
  let state = count + 1;
  const next = (): number => (state = (Math.imul(state, 1664525) + 1013904223) >>> 0) / 2 ** 32;
  return [1e-9, 1, 100].map((scale) => Float64Array.from({ length: count }, () => 20 + scale * (next() - 0.3)));
};

test.each([1, 2, 3, 4, 5, 7, 2500, 10_001])("%d trials of three measurands", (count) => {
  const columns = columnsOf(count);
  expect(summariesOfThread()).not.toBeNull();
  const plain = coMomentsOf(columns, null);
  expect(coMomentsOf(columns)).toStrictEqual(plain);
  // And a plain sum, to rounding.
  const [a, b] = [columns[1]!, columns[2]!];
  const sum = a.reduce((total, x, t) => total + (x - plain.means[1]!) * (b[t]! - plain.means[2]!), 0);
  expect(plain.products[1]![2]).toBeCloseTo(sum, 6);
});
