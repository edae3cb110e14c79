import { expect, test } from "vitest";
import { effectiveDegreesOfFreedom } from "../../../engine/linear/effective-degrees-of-freedom.ts";

/**
 * JCGM 100:2008, G.4.1, formula G.2b; figures by the formula. The first two are the end gauge's, H.1.6: it
 * takes its combined uncertainty of the comparator rounded, 9.7 nm, and that of the result from unrounded contributions.
 */
interface Row {
  readonly u: readonly number[];
  readonly ν: readonly number[];
  readonly expected: number;
  /** The combined uncertainty, where the source takes it rounded. */
  readonly combined?: number;
  readonly decimals?: number;
}

test.each<Row>([
  { u: [25, 9.7, 2.9, 16.675], ν: [18, 25.6376319398, 50, 2], expected: 16.6562019724, decimals: 3 },
  { u: [5.8, 3.9, 6.7], ν: [24, 5, 8], expected: 25.6376319398, combined: 9.7 },
  { u: [1, 1], ν: [5, 5], expected: 10 },
  { u: [1, 0], ν: [5, 9], expected: 5 },
  { u: [1, 1], ν: [4, Infinity], expected: 16 },
  { u: [1, 1], ν: [Infinity, Infinity], expected: Infinity },
  { u: [1e-150, 1e-150], ν: [5, 5], expected: 10 },
  { u: [1e150, 1e150], ν: [5, 5], expected: 10 },
])("u $u, ν $ν: $expected", ({ u, ν, expected, combined: stated, decimals = 9 }) => {
  const largest = Math.max(...u);
  const combined = stated ?? largest * Math.sqrt(u.reduce((sum, value) => sum + (value / largest) ** 2, 0));
  const found = effectiveDegreesOfFreedom(
    u.map((own, i) => ({ share: (own / combined) ** 2, degreesOfFreedom: ν[i]! })),
  );
  if (expected === Infinity) expect(found).toBe(Infinity);
  else expect(found / expected).toBeCloseTo(1, decimals);
});

test("never more than the sum of the degrees of freedom (JCGM 100, G.4.1), and infinite where nothing contributes", () => {
  const parts = [
    { share: 9 / 25, degreesOfFreedom: 2 },
    { share: 16 / 25, degreesOfFreedom: 3 },
  ];
  expect(effectiveDegreesOfFreedom(parts)).toBeLessThanOrEqual(5);
  expect(effectiveDegreesOfFreedom([{ share: 0, degreesOfFreedom: 4 }])).toBe(Infinity);
  expect(effectiveDegreesOfFreedom([])).toBe(Infinity);
});
