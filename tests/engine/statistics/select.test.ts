import * as fc from "fast-check";
import { expect, test } from "vitest";
import { select } from "../../../engine/statistics/select.ts";

test("the value of a rank is that of a sort, smaller before it, larger behind, the rest untouched", () => {
  const value = fc.oneof(fc.integer({ min: 0, max: 3 }), fc.double({ noNaN: true, noDefaultInfinity: true }));
  fc.assert(
    fc.property(
      fc.array(value, { minLength: 1, maxLength: 400 }),
      fc.nat(),
      fc.nat({ max: 3 }),
      (list, pick, margin) => {
        const values = Float64Array.from(list);
        const from = Math.min(margin, values.length - 1);
        const part = values.slice(from).sort();
        const rank = 1 + (pick % part.length);
        const before = values.slice(0, from);
        expect(select(values, rank, from)).toBe(part[rank - 1]);
        const k = from + rank - 1;
        expect(values.slice(0, from)).toEqual(before);
        expect(values.subarray(from, k).every((x) => x <= values[k]!)).toBe(true);
        expect(values.subarray(k).every((x) => x >= values[k]!)).toBe(true);
        expect(values.slice(from).sort()).toEqual(part);
      },
    ),
    { seed: 1, numRuns: 400 },
  );
});

test.each([
  ["sorted", (i: number) => i],
  ["sorted downwards", (i: number) => -i],
  ["equal", () => 5],
  ["two values", (i: number) => i % 2],
  ["organ pipe", (i: number) => Math.min(i, 4000 - i)],
])("%s values of some length", (_, make) => {
  const values = Float64Array.from({ length: 4000 }, (__, i) => make(i));
  const sorted = values.slice().sort();
  for (const rank of [1, 1000, 2000, 3999, 4000]) expect(select(values.slice(), rank)).toBe(sorted[rank - 1]);
});
