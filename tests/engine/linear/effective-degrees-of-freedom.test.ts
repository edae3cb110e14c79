import { expect, test } from "vitest";
import { effectiveDegreesOfFreedom } from "../../../engine/linear/effective-degrees-of-freedom.ts";

/**
 * JCGM 100:2008, G.4.1, formula G.2b (from memory); figures by the formula. The first two are the end gauge's, H.1.6: it
 * takes its combined uncertainty of the comparator rounded, 9.7 nm, and that of the result from unrounded contributions.
 */
test.each<readonly [number[], number[], number, (number | undefined)?, number?]>([
  [[25, 9.7, 2.9, 16.675], [18, 25.6376319398, 50, 2], 16.6562019724, undefined, 3],
  [[5.8, 3.9, 6.7], [24, 5, 8], 25.6376319398, 9.7],
  [[1, 1], [5, 5], 10],
  [[1, 0], [5, 9], 5],
  [[1, 1], [4, Infinity], 16],
  [[1, 1], [Infinity, Infinity], Infinity],
  [[1e-150, 1e-150], [5, 5], 10],
  [[1e150, 1e150], [5, 5], 10],
])("u %j, ν %j: %d", (u, ν, expected, stated, decimals = 9) => {
  const largest = Math.max(...u);
  const combined = stated ?? largest * Math.sqrt(u.reduce((sum, value) => sum + (value / largest) ** 2, 0));
  const contributions = u.map((contribution, i) => ({ contribution, degreesOfFreedom: ν[i]! }));
  const found = effectiveDegreesOfFreedom(combined, contributions);
  if (expected === Infinity) expect(found).toBe(Infinity);
  else expect(found / expected).toBeCloseTo(1, decimals);
});

test("never more than the sum of the degrees of freedom (JCGM 100, G.4.1), and infinite where nothing contributes", () => {
  const contributions = [
    { contribution: 3, degreesOfFreedom: 2 },
    { contribution: 4, degreesOfFreedom: 3 },
  ];
  expect(effectiveDegreesOfFreedom(5, contributions)).toBeLessThanOrEqual(5);
  expect(effectiveDegreesOfFreedom(0, [{ contribution: 0, degreesOfFreedom: 4 }])).toBe(Infinity);
});
