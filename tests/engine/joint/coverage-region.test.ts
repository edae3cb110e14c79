import * as fc from "fast-check";
import { expect, test } from "vitest";
import { greatestDeviations, squaredDistances, valueCovering } from "../../../engine/joint/coverage-region.ts";

const figure = fc.integer({ min: -1000, max: 1000 }).map((n) => n / 100);

/** (y − ȳ)ᵀ U⁻¹ (y − ȳ) with U⁻¹ by Gauss and Jordan: another way than the one in use. */
function plainDistance(y: readonly number[], U: readonly (readonly number[])[]): number {
  const m = y.length;
  const rows = U.map((row, i) => [...row, y[i]!]);
  for (let i = 0; i < m; i++) {
    const pivot = rows[i]![i]!;
    rows[i] = rows[i]!.map((value) => value / pivot);
    for (let k = 0; k < m; k++) {
      if (k === i) continue;
      const factor = rows[k]![i]!;
      rows[k] = rows[k]!.map((value, j) => value - factor * rows[i]![j]!);
    }
  }
  return y.reduce((sum, value, i) => sum + value * rows[i]![m]!, 0);
}

test.each([1, 2, 3, 4, 6])("squared distances in %d dimensions are (y − ȳ)ᵀ U⁻¹ (y − ȳ)", (m) => {
  const column = fc.array(figure, { minLength: m * m, maxLength: m * m });
  fc.assert(
    fc.property(column, fc.array(figure, { minLength: m, maxLength: m }), (entries, means) => {
      // A·Aᵀ + I is a covariance matrix of full rank.
      const A = means.map((_, i) => entries.slice(i * m, (i + 1) * m));
      const U = A.map((a, i) => A.map((b, j) => a.reduce((sum, value, k) => sum + value * b[k]!, i === j ? 1 : 0)));
      const columns = means.map((mean, i) =>
        Float64Array.from({ length: 1500 }, (_, t) => mean + Math.sin(t * (i + 1)) * 3),
      );
      const out = new Float64Array(1500);
      squaredDistances(means, U)!(columns, out);
      for (const t of [0, 1, 700, 1023, 1024, 1499]) {
        const y = columns.map((values, i) => values[t]! - means[i]!);
        const plain = plainDistance(y, U);
        expect(Math.abs(out[t]! - plain)).toBeLessThanOrEqual(1e-7 * (1 + plain));
      }
    }),
    { seed: m, numRuns: 30 },
  );
});

test("a singular covariance has no distances", () => {
  expect(
    squaredDistances(
      [0, 0],
      [
        [1, 1],
        [1, 1],
      ],
    ),
  ).toBeNull();
});

test("greatest deviations, and the value that a share covers", () => {
  const out = new Float64Array(3);
  greatestDeviations(
    [Float64Array.of(1, -4, 0), Float64Array.of(0, 2, 9), Float64Array.of(7, 7, 7)],
    [0, 0, 7],
    [1, 2, 0],
    out,
  );
  expect([...out]).toEqual([1, 4, 4.5]);
  // q = pM + ½, the integer part (JCGM 101, 7.7.2).
  expect(
    valueCovering(
      Float64Array.from({ length: 100 }, (_, i) => (i * 37) % 100),
      0.95,
    ),
  ).toBe(94);
});
