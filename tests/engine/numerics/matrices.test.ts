import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cholesky } from "../../../engine/numerics/cholesky.ts";
import { LONG } from "../../setup/long.ts";
import { symmetricEigen } from "../../../engine/numerics/symmetric-eigen.ts";

type Rows = readonly (readonly number[])[];

const product = (a: Rows, b: Rows): number[][] =>
  a.map((row) => b[0]!.map((_, j) => row.reduce((sum, value, k) => sum + value * b[k]![j]!, 0)));
const transposed = (a: Rows): number[][] => a[0]!.map((_, j) => a.map((row) => row[j]!));
const size = (a: Rows): number => Math.max(...a.flat().map(Math.abs));
const apart = (a: Rows, b: Rows): number => size(a.map((row, i) => row.map((value, j) => value - b[i]![j]!)));

/** A square matrix of whole tenths, so that a shrunk counterexample can be read. */
const square = fc
  .integer({ min: 1, max: 5 })
  .chain((n) =>
    fc.array(fc.array(fc.integer({ min: -30, max: 30 }), { minLength: n, maxLength: n }), {
      minLength: n,
      maxLength: n,
    }),
  )
  .map((rows) => rows.map((row) => row.map((value) => value / 10)));

/** Rank of a matrix of whole numbers, exactly, by elimination without fractions (Bareiss 1968). */
function exactRank(rows: Rows): number {
  const m = rows.map((row) => row.map((value) => BigInt(value)));
  let rank = 0;
  let before = 1n;
  for (let c = 0; c < m[0]!.length && rank < m.length; c++) {
    const at = m.findIndex((row, i) => i >= rank && row[c] !== 0n);
    if (at < 0) continue;
    [m[rank], m[at]] = [m[at]!, m[rank]!];
    const pivot = m[rank]!;
    for (let i = rank + 1; i < m.length; i++) {
      const row = m[i]!;
      m[i] = row.map((value, k) => (value * pivot[c]! - row[c]! * pivot[k]!) / before);
    }
    before = pivot[c]!;
    rank += 1;
  }
  return rank;
}

describe("Cholesky factor", () => {
  /** B·Bᵀ of fewer columns than rows, given in whole tenths; a test of all matrices that fast-check makes of a seed. */
  const ofProducts = (numRuns: number, seed: number): void =>
    fc.assert(
      fc.property(square, fc.integer({ min: 1, max: 5 }), (full, columns) => {
        const b = full.map((row) => row.slice(0, columns));
        const a = product(b, transposed(b));
        const { factor, rank } = cholesky(a);
        expect(factor.every((row, i) => row.every((value, j) => j <= i || value === 0))).toBe(true);
        expect(rank).toBeLessThanOrEqual(exactRank(b.map((row) => row.map((value) => Math.round(10 * value)))));
        const again = product(factor, transposed(factor));
        const n = a.length;
        for (let i = 0; i < n; i++)
          for (let j = 0; j <= i; j++) {
            const scale = Math.sqrt(a[i]![i]! * a[j]![j]!);
            // A column that is kept: Higham, theorem 10.3, and as much again for the product above. One that is taken as
            // dependent loses the root of its pivot off the diagonal (Cauchy-Schwarz): 1e-6, more if rounding is larger.
            const bound = factor[j]![j]! > 0 ? 2 * (n + 1) * Number.EPSILON : 1e-5;
            expect(Math.abs(again[i]![j]! - a[i]![j]!)).toBeLessThanOrEqual(bound * scale);
          }
      }),
      { numRuns, seed },
    );

  test.each([1, 2, 3])("of B·Bᵀ gives it back, is lower triangular, and never has more rank than B: seed %d", (seed) =>
    ofProducts(300, seed),
  );

  test("the same of many, of which one in 600 has a pivot above 1e-12 that is rounding alone", LONG, () => {
    for (let seed = 100; seed < 110; seed++) ofProducts(1000, seed);
  });

  test.each([1e-2, 1e-3, 1e-4, 1e-5])(
    "of three quantities of which the last depends on the others, which are nearly dependent (%d apart), has rank 2",
    (apartBy) => {
      let ranks = 0;
      for (let i = 0; i < 50; i++) {
        // Each direction once: the last is any combination of the others.
        const angle = (i * Math.PI) / 50;
        const b = [
          [1, 0],
          [1, apartBy],
          [Math.cos(angle), Math.sin(angle)],
        ];
        ranks += cholesky(product(b, transposed(b))).rank;
      }
      expect(ranks).toBe(50 * 2);
    },
  );

  test("a column that is nearly dependent, clearly above rounding, is kept: 1 − r² = 1e-10", () => {
    const r = Math.sqrt(1 - 1e-10);
    expect(
      cholesky([
        [1, r],
        [r, 1],
      ]).rank,
    ).toBe(2);
  });

  test("of a matrix by hand, exactly: [[4, 2], [2, 10]] = L·Lᵀ with L = [[2, 0], [1, 3]]", () => {
    expect(
      cholesky([
        [4, 2],
        [2, 10],
      ]),
    ).toEqual({
      factor: [
        [2, 0],
        [1, 3],
      ],
      rank: 2,
    });
  });

  test.each([1, -1])("of inputs correlated by r = %d has rank 1", (r) => {
    expect(
      cholesky([
        [1, r],
        [r, 1],
      ]),
    ).toEqual({
      factor: [
        [1, 0],
        [r, 0],
      ],
      rank: 1,
    });
  });
});

describe("eigenvalues of a symmetric matrix", () => {
  test("rise, and A·v = λ·v for orthonormal v", () => {
    fc.assert(
      fc.property(square, (b) => {
        const a = b.map((row, i) => row.map((value, j) => value + b[j]![i]!));
        const { values, vectors } = symmetricEigen(a);
        const tolerance = 1e-13 * a.length * (size(a) + 1);
        expect(values).toEqual(values.toSorted((x, y) => x - y));
        expect(
          apart(
            product(a, vectors),
            vectors.map((row) => row.map((v, j) => v * values[j]!)),
          ),
        ).toBeLessThan(tolerance);
        const unit = a.map((_, i) => a.map((__, j) => (i === j ? 1 : 0)));
        expect(apart(product(transposed(vectors), vectors), unit)).toBeLessThan(1e-13 * a.length);
      }),
      { seed: 1 },
    );
  });

  test("of the second-difference matrix: 2 − 2·cos(kπ/(n + 1)), a closed form", () => {
    const n = 6;
    const a = Array.from({ length: n }, (_, i) =>
      Array.from({ length: n }, (__, j) => (i === j ? 2 : Math.abs(i - j) === 1 ? -1 : 0)),
    );
    symmetricEigen(a).values.forEach((value, k) =>
      expect(value).toBeCloseTo(2 - 2 * Math.cos(((k + 1) * Math.PI) / (n + 1)), 13),
    );
  });
});
