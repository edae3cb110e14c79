import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { directionNumbers } from "../../../engine/low-discrepancy/direction-numbers.ts";
import { LARGEST_DIMENSION, sobolCoordinates } from "../../../engine/low-discrepancy/sobol.ts";

/** Points of another implementation: see tests/reference/sobol.py. */
const reference = JSON.parse(readFileSync(new URL("../../reference/sobol.json", import.meta.url), "utf8")) as {
  points: number;
  dimensions: number;
  rows: Record<string, number[]>;
  sums: number[];
  products: number[];
  far: { first: number; rows: number[][] };
};

/** 2^digits times the coordinates of points `first` on. */
function column(dimension: number, first: number, count: number, digits: number): number[] {
  const out = new Uint32Array(count);
  sobolCoordinates(dimension)(first, out, count);
  return Array.from(out, (x) => x >>> (32 - digits));
}

describe("against scipy.stats.qmc.Sobol, unscrambled", () => {
  const columns = Array.from({ length: LARGEST_DIMENSION }, (_, dimension) =>
    column(dimension, 0, reference.points, 10),
  );

  test("as many dimensions", () => {
    expect(LARGEST_DIMENSION).toBe(161);
    expect(reference.dimensions).toBe(LARGEST_DIMENSION);
  });

  test.each(Object.entries(reference.rows))("point %s in every dimension", (index, row) => {
    expect(columns.map((x) => x[Number(index)])).toEqual(row);
  });

  test("sums over the first 1024 points, and of products of neighbouring coordinates", () => {
    const sum = (values: readonly number[]): number => values.reduce((total, value, i) => total + (i + 1) * value, 0);
    expect(columns.map(sum)).toEqual(reference.sums);
    expect(columns.slice(1).map((y, j) => sum(y.map((value, i) => value * columns[j]![i]!)))).toEqual(
      reference.products,
    );
  });

  test("points from the middle on", () => {
    const { first, rows } = reference.far;
    const found = Array.from({ length: LARGEST_DIMENSION }, (_, dimension) =>
      column(dimension, first, rows.length, 30),
    );
    rows.forEach((row, i) => expect(found.map((x) => x[i])).toEqual(row));
  });
});

test("direction numbers satisfy the construction: odd, m_k < 2^k, polynomials all different", () => {
  for (const { coefficients, initial } of directionNumbers) {
    expect(coefficients).toBeLessThan(2 ** (initial.length - 1));
    initial.forEach((m, k) => {
      expect(m % 2).toBe(1);
      expect(m).toBeLessThan(2 ** (k + 1));
    });
  }
  // Primitive polynomials over two elements of degree 1 to 10: φ(2^s − 1)/s of each (OEIS A011260).
  const degrees = directionNumbers.map(({ initial }) => initial.length);
  expect([1, 2, 3, 4, 5, 6, 7, 8, 9, 10].map((s) => degrees.filter((degree) => degree === s).length)).toEqual([
    1, 1, 2, 2, 6, 6, 18, 16, 48, 60,
  ]);
  expect(new Set(directionNumbers.map(({ coefficients, initial }) => `${initial.length} ${coefficients}`)).size).toBe(
    160,
  );
});

test("any stretch is a part of the whole", () => {
  for (const dimension of [0, 1, 17, 160]) {
    const whole = column(dimension, 0, 5000, 32);
    for (const [first, count] of [
      [0, 1],
      [1, 700],
      [2500, 2500],
      [4095, 3],
    ] as const) {
      expect(column(dimension, first, count, 32)).toEqual(whole.slice(first, first + count));
    }
  }
});

test("2^m points from any multiple of 2^m on: one in every interval of 2^-m, in every dimension", () => {
  for (let dimension = 0; dimension < LARGEST_DIMENSION; dimension++) {
    for (const [first, m] of [
      [0, 8],
      [256, 8],
      [3 * 1024, 10],
    ] as const) {
      expect(new Set(column(dimension, first, 2 ** m, m)).size, `${dimension}`).toBe(2 ** m);
    }
  }
});
