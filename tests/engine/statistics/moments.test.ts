import { readFileSync } from "node:fs";
import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  excessKurtosis,
  mergeMoments,
  momentsOf,
  NO_MOMENTS,
  skewness,
  standardDeviation,
  type Moments,
} from "../../../engine/statistics/moments.ts";

/** A centre, then 500 pairs of centre − 0.1 and centre + 0.1, as decimal numbers. */
const alternating = (whole: number): number[] => [
  whole + 0.2,
  ...Array.from({ length: 1000 }, (_, i) => Number(`${whole}.${i % 2 === 0 ? 1 : 3}`)),
];

interface Set {
  readonly name: string;
  readonly mean: number;
  readonly standardDeviation: number;
  readonly values: readonly number[];
}

const stored = JSON.parse(readFileSync(new URL("strd.json", import.meta.url), "utf8")) as {
  readonly sets: readonly Set[];
};

/**
 * NIST/ITL Statistical Reference Datasets, univariate (retrieved; every certified figure reproduced in 40-digit
 * arithmetic). NumAcc2 to 4 are given by a formula; what their decimal data lose in a double limits the deviation.
 */
const sets: (readonly [string, readonly number[], number, number, number])[] = [
  ["NumAcc1", [10000001, 10000003, 10000002], 10000002, 1, 0],
  ["NumAcc2", alternating(1), 1.2, 0.1, 1e-14],
  ["NumAcc3", alternating(1000000), 1000000.2, 0.1, 1e-9],
  ["NumAcc4", alternating(10000000), 10000000.2, 0.1, 1e-8],
  ["PiDigits", piDigits(), 4.5348, 2.86733906028871, 1e-14],
  ...stored.sets.map(
    ({ name, values, mean, standardDeviation: s }) =>
      // What decimal data lose counts where the mean is thousands of deviations.
      [name, values, mean, s, mean > 1000 * s ? 1e-12 : 1e-14] as const,
  ),
];

describe.each(sets)("NIST StRD %s", (_, values, mean, deviation, tolerance) => {
  const check = (moments: Moments): void => {
    expect(Math.abs(moments.mean - mean)).toBeLessThanOrEqual(2e-15 * Math.abs(mean));
    expect(Math.abs(standardDeviation(moments) / deviation - 1)).toBeLessThanOrEqual(tolerance + 1e-15);
  };

  test("at once", () => check(momentsOf(values)));

  test.each([1, 2, 7, 100])("merged from pieces of %d", (size) => {
    let merged = NO_MOMENTS;
    for (let at = 0; at < values.length; at += size)
      merged = mergeMoments(merged, momentsOf(values.slice(at, at + size)));
    expect(merged.count).toBe(values.length);
    expect(Math.abs(merged.mean / mean - 1)).toBeLessThan(1e-14);
    // Each merge may lose a rounding of the mean, which counts where the mean is large beside the deviation.
    const rounding = (values.length / size) * 2 ** -52 * Math.abs(mean / deviation);
    expect(Math.abs(standardDeviation(merged) / deviation - 1)).toBeLessThan(tolerance + 1e-13 + rounding);
  });
});

/** The decimal digits of π from the leading 3 by Machin's formula; NIST's set has a 3 in place 957 where π has an 8. */
function piDigits(): number[] {
  const unity = 10n ** 5010n;
  const inverseTangent = (x: bigint): bigint => {
    let term = unity / x;
    let sum = term;
    for (let n = 3n, sign = -1n; term !== 0n; n += 2n, sign = -sign) {
      term /= x * x;
      sum += (sign * term) / n;
    }
    return sum;
  };
  const digits = Array.from((4n * (4n * inverseTangent(5n) - inverseTangent(239n))).toString().slice(0, 5000), Number);
  digits[956] = 3;
  return digits;
}

describe("moments", () => {
  test("third and fourth of a small set, worked by hand", () => {
    // Deviations from the mean 3 of 1, 2, 3, 6: −2, −1, 0, 3.
    const moments = momentsOf([1, 2, 3, 6]);
    expect(moments).toEqual({ count: 4, mean: 3, m2: 14, m3: 18, m4: 98, scale: 1 });
    expect(skewness(moments)).toBeCloseTo((2 * 18) / 14 ** 1.5, 14);
    expect(excessKurtosis(moments)).toBeCloseTo((4 * 98) / 196 - 3, 14);
  });

  test("nothing, one value, equal values", () => {
    expect(momentsOf([])).toEqual(NO_MOMENTS);
    expect(standardDeviation(momentsOf([5]))).toBe(0);
    const equal = momentsOf([0.1, 0.1, 0.1]);
    expect([standardDeviation(equal), skewness(equal), excessKurtosis(equal)]).toEqual([0, 0, 0]);
    expect(mergeMoments(NO_MOMENTS, equal)).toBe(equal);
    expect(mergeMoments(equal, NO_MOMENTS)).toBe(equal);
  });

  test("merging any two pieces gives the moments of the whole (Pébay 2008), exactly in integers", () => {
    const integers = fc.array(fc.integer({ min: -50, max: 50 }), { minLength: 1, maxLength: 30 });
    fc.assert(
      fc.property(integers, integers, (a, b) => {
        const merged = mergeMoments(momentsOf(a), momentsOf(b));
        const whole = momentsOf([...a, ...b]);
        const mean = [...a, ...b].reduce((sum, x) => sum + x, 0) / whole.count;
        const central = (k: number): number => [...a, ...b].reduce((sum, x) => sum + (x - mean) ** k, 0);
        // Sums of up to 60 terms of at most 100^k: rounding of a few parts in 10¹⁵ of the greatest.
        for (const moments of [merged, whole]) {
          expect(Math.abs(moments.mean - mean)).toBeLessThan(1e-12);
          expect(Math.abs(moments.m2 - central(2))).toBeLessThan(1e-9);
          expect(Math.abs(moments.m3 - central(3))).toBeLessThan(1e-7);
          expect(Math.abs(moments.m4 - central(4))).toBeLessThan(1e-5);
        }
      }),
      { seed: 1 },
    );
  });

  test("the plain sum of squares fails where these do not: NumAcc4", () => {
    const values = alternating(10000000);
    const [sum, squares] = values.reduce(([s, q], x) => [s + x, q + x * x], [0, 0]) as [number, number];
    const plain = Math.sqrt(Math.max(0, squares - (sum * sum) / values.length) / (values.length - 1));
    expect(Math.abs(plain / 0.1 - 1)).toBeGreaterThan(0.01);
    expect(Math.abs(standardDeviation(momentsOf(values)) / 0.1 - 1)).toBeLessThan(1e-8);
  });
});
