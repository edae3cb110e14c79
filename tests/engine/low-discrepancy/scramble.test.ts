// What nested uniform scrambling must keep and what it must make random (A. B. Owen, Lecture Notes in Statistics 106
// (1995), section 3: a scrambled (t,m,s)-net is one with probability 1, and each point is uniform).
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { directionNumbers } from "../../../engine/low-discrepancy/direction-numbers.ts";
import { LARGEST_DIMENSION, sobolCoordinates } from "../../../engine/low-discrepancy/sobol.ts";
import { correlation, distanceFromUniform, distanceLimit, scrambled } from "./scrambled.ts";

/** Figures of another implementation: see tests/reference/sobol.py. */
const reference = JSON.parse(readFileSync(new URL("../../reference/sobol.json", import.meta.url), "utf8")) as {
  gains: { a: number[]; byPower: Record<string, number> };
};

const M = 10;
const N = 2 ** M;

/** Degree of the polynomial of a dimension; the first dimension's counts as 1. */
const degreeOf = (dimension: number): number => (dimension === 0 ? 1 : directionNumbers[dimension - 1]!.initial.length);

/** How many points lie in each box that has 2^digits[j] equal parts along axis j. */
function counts(axes: readonly Float64Array[], digits: readonly number[]): number[] {
  const boxes = Array.from({ length: 2 ** digits.reduce((sum, d) => sum + d, 0) }, () => 0);
  for (let i = 0; i < N; i++) {
    let box = 0;
    axes.forEach((axis, j) => (box = box * 2 ** digits[j]! + Math.floor(axis[i]! * 2 ** digits[j]!)));
    boxes[box]! += 1;
  }
  return boxes;
}

/** Every way to share `total` digits among `axes` axes. */
function shares(total: number, axes: number): number[][] {
  if (axes === 1) return [[total]];
  return Array.from({ length: total + 1 }, (_, d) => shares(total - d, axes - 1).map((rest) => [d, ...rest])).flat();
}

describe("a scrambled net is a net", () => {
  const axes = Array.from({ length: LARGEST_DIMENSION }, (_, dimension) => scrambled("nets", 3, dimension, M));

  test("one coordinate: one point in each of the 2^m parts, in every dimension", () => {
    for (const axis of axes) expect(counts([axis], [M]).every((count) => count === 1)).toBe(true);
  });

  // Sobol' points are a (t,m,s)-net with t = Σ (degree − 1): I. M. Sobol' 1967, theorem 3.4; H. Niederreiter, "Random
  // Number Generation and Quasi-Monte Carlo Methods", SIAM 1992, section 4.5. Every elementary box of volume 2^(t − m)
  // then holds exactly 2^t points.
  const sets = [
    [0, 1],
    [0, 2],
    [1, 2],
    [0, 3],
    [2, 3],
    [1, 4],
    [3, 5],
    [4, 6],
    [2, 7],
    [5, 7],
    [0, 12],
    [0, 1, 2],
    [1, 2, 3],
    [0, 1, 2, 3],
  ];
  test.each(sets.map((dimensions) => ({ dimensions, t: dimensions.reduce((sum, j) => sum + degreeOf(j) - 1, 0) })))(
    "dimensions $dimensions: 2^$t points in every elementary box of 2^$t/2^m",
    ({ dimensions, t }) => {
      expect(t).toBeLessThan(M);
      for (const digits of shares(M - t, dimensions.length)) {
        const found = counts(
          dimensions.map((j) => axes[j]!),
          digits,
        );
        expect(
          found.every((count) => count === 2 ** t),
          `${digits}`,
        ).toBe(true);
      }
    },
  );

  test("the check distinguishes random points from a net", () => {
    const random = [scrambled("one", 0, 0, M), scrambled("two", 0, 0, M)];
    expect(counts(random, [5, 5]).every((count) => count === 1)).toBe(false);
  });
});

test("nested: two points share exactly as many digits after scrambling as before", () => {
  for (const dimension of [0, 1, 40]) {
    const before = new Uint32Array(N);
    sobolCoordinates(dimension)(0, before, N);
    const after = scrambled("nested", 0, dimension, M);
    const leading = (x: number): number => Math.clz32(x) - (32 - M);
    for (let i = 0; i < N; i += 7) {
      for (let j = i + 1; j < N; j += 11) {
        const shared = leading((before[i]! ^ before[j]!) >>> (32 - M));
        expect(leading(Math.floor(after[i]! * N) ^ Math.floor(after[j]! * N))).toBe(shared);
      }
    }
  }
});

describe("what is random is uniform and independent", () => {
  const SCRAMBLINGS = 3000;
  const columns = [0, 1, 9].map((dimension) =>
    Array.from({ length: SCRAMBLINGS }, (_, number) => scrambled("uniform", number, dimension, 6)),
  );

  test.each([0, 1, 37, 63])("point %i is uniform over scramblings", (point) => {
    for (const sets of columns)
      expect(distanceFromUniform(sets.map((set) => set[point]!))).toBeLessThan(distanceLimit(SCRAMBLINGS));
  });

  test("places within the smallest parts are uniform", () => {
    for (const dimension of [0, 5, 160]) {
      const u = scrambled("within", 1, dimension, 14);
      expect(distanceFromUniform(u.map((x) => x * 2 ** 14 - Math.floor(x * 2 ** 14)))).toBeLessThan(
        distanceLimit(2 ** 14),
      );
    }
  });

  // A correlation of n independent pairs has standard deviation 1/√n nearly: five of them.
  const limit = 5 / Math.sqrt(SCRAMBLINGS - 1);
  test.each([
    { what: "neighbouring scramblings", pair: (i: number) => [columns[0]![i]![5]!, columns[0]![i + 1]![5]!] as const },
    {
      what: "the next scrambling's other dimension",
      pair: (i: number) => [columns[0]![i]![5]!, columns[1]![i + 1]![5]!] as const,
    },
    { what: "two dimensions of one point", pair: (i: number) => [columns[1]![i]![12]!, columns[2]![i]![12]!] as const },
    {
      what: "two points, in the digits beyond the table's",
      pair: (i: number) => [(columns[0]![i]![0]! * 64) % 1, (columns[0]![i]![1]! * 64) % 1] as const,
    },
  ])("independent: $what", ({ pair }) => {
    const pairs = Array.from({ length: SCRAMBLINGS - 1 }, (_, i) => pair(i));
    expect(
      Math.abs(
        correlation(
          pairs.map(([a]) => a),
          pairs.map(([, b]) => b),
        ),
      ),
    ).toBeLessThan(limit);
  });

  test("coins are fair at every depth, and those of one depth differ", () => {
    // Digit d of point 0 before scrambling is 0: after it, it is the coin of the string before.
    for (let digit = 1; digit <= 6; digit++) {
      const ones = columns[1]!.reduce((sum, set) => sum + (Math.floor(set[0]! * 2 ** digit) % 2), 0);
      expect(Math.abs(ones - SCRAMBLINGS / 2)).toBeLessThan((5 * Math.sqrt(SCRAMBLINGS)) / 2);
    }
    // Points 0 and 1 of the first dimension lie in different halves: their second digits have coins of their own.
    const second = (point: number): number[] => columns[0]!.map((set) => Math.floor(set[point]! * 4) % 2);
    expect(Math.abs(correlation(second(0), second(1)))).toBeLessThan(5 / Math.sqrt(SCRAMBLINGS));
  });
});

describe("bits", () => {
  test("the same each time; others for another seed, number or dimension", () => {
    const first = scrambled("bits", 0, 4, 12);
    expect(scrambled("bits", 0, 4, 12)).toEqual(first);
    for (const other of [scrambled("other", 0, 4, 12), scrambled("bits", 1, 4, 12), scrambled("bits", 0, 5, 12)])
      expect(other).not.toEqual(first);
  });

  test("52 binary digits, centred in their cells: never 0 or 1", () => {
    for (const levels of [1, 6, 20]) {
      const u = scrambled("centred", 0, 1, levels);
      expect(u.every((x) => x > 0 && x < 1 && Number.isInteger(x * 2 ** 52 - 0.5))).toBe(true);
    }
  });
});

describe("integration of Sobol's g-function, the product of (|4x − 2| + a)/(1 + a)", () => {
  // Of mean 1, since |4x − 2| has mean 1; of variance Π(1 + 1/(3(1 + a)²)) − 1, since that has variance 1/3. The values
  // of a are the first five of the usual ones, 0, 0.5, 3, 9, 99, 99.
  const { a: A, byPower } = reference.gains;
  const variance = A.reduce((product, a) => product * (1 + 1 / (3 * (1 + a) ** 2)), 1) - 1;
  const REPEATS = 128;
  const errors = (levels: number): number[] =>
    Array.from({ length: REPEATS }, (_, number) => {
      const axes = A.map((_a, dimension) => scrambled("g", number, dimension, levels));
      let sum = 0;
      for (let i = 0; i < 2 ** levels; i++)
        sum += A.reduce((product, a, j) => (product * (Math.abs(4 * axes[j]![i]! - 2) + a)) / (1 + a), 1);
      return sum / 2 ** levels - 1;
    });
  const meanSquare = (values: readonly number[]): number => values.reduce((sum, x) => sum + x * x, 0) / values.length;

  test.each(Object.entries(byPower))(
    "2^%s points: no bias, and %i times fewer points than trials for the same error",
    (levels, published) => {
      const found = errors(Number(levels));
      // Five standard errors of the mean.
      expect(Math.abs(found.reduce((sum, x) => sum + x, 0) / REPEATS)).toBeLessThan(
        5 * Math.sqrt(meanSquare(found) / REPEATS),
      );
      const gain = variance / 2 ** Number(levels) / meanSquare(found);
      // Random trials would give a gain above 2 once in a million times (χ² with 128 degrees of freedom): far below this.
      expect(gain).toBeGreaterThan(100);
      // Another implementation's gain, whose mean square comes from 512 repetitions: five standard errors of the difference,
      // by the spread of the squares themselves.
      const squares = found.map((x) => x * x);
      const relative = Math.sqrt(meanSquare(squares) / meanSquare(found) ** 2 - 1) * Math.sqrt(1 / REPEATS + 1 / 512);
      expect(Math.abs(Math.log(gain / published))).toBeLessThan(5 * relative);
    },
  );
});
