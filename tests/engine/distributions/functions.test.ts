import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { lowerBeta } from "../../../engine/numerics/incomplete-beta.ts";
import { lowerGamma, upperGamma } from "../../../engine/numerics/incomplete-gamma.ts";
import { monotoneInverse } from "../../../engine/numerics/monotone-inverse.ts";
import { poissonProbability } from "../../../engine/numerics/saddle-point.ts";
import { normalDistributionFunction, normalQuantile, normalStrip } from "../../../engine/numerics/standard-normal.ts";
import { tDistributionFunction, tQuantile } from "../../../engine/numerics/standard-t.ts";
import { exp } from "../../../engine/elementary/index.ts";

/**
 * JCGM 100:2008, table G.2, the same as NIST TN 1297 (1994), table B.1 (retrieved). Columns are p in per cent. The
 * printed 1.70 for t₉₀(35) is a misprint: the value is 1.68957, 1.69 to two decimals.
 */
const G2 = `
1   1.84  6.31  12.71 13.97 63.66 235.8
2   1.32  2.92  4.30  4.53  9.92  19.21
3   1.20  2.35  3.18  3.31  5.84  9.22
4   1.14  2.13  2.78  2.87  4.60  6.62
5   1.11  2.02  2.57  2.65  4.03  5.51
6   1.09  1.94  2.45  2.52  3.71  4.90
7   1.08  1.89  2.36  2.43  3.50  4.53
8   1.07  1.86  2.31  2.37  3.36  4.28
9   1.06  1.83  2.26  2.32  3.25  4.09
10  1.05  1.81  2.23  2.28  3.17  3.96
11  1.05  1.80  2.20  2.25  3.11  3.85
12  1.04  1.78  2.18  2.23  3.05  3.76
13  1.04  1.77  2.16  2.21  3.01  3.69
14  1.04  1.76  2.14  2.20  2.98  3.64
15  1.03  1.75  2.13  2.18  2.95  3.59
16  1.03  1.75  2.12  2.17  2.92  3.54
17  1.03  1.74  2.11  2.16  2.90  3.51
18  1.03  1.73  2.10  2.15  2.88  3.48
19  1.03  1.73  2.09  2.14  2.86  3.45
20  1.03  1.72  2.09  2.13  2.85  3.42
25  1.02  1.71  2.06  2.11  2.79  3.33
30  1.02  1.70  2.04  2.09  2.75  3.27
35  1.01  1.69  2.03  2.07  2.72  3.23
40  1.01  1.68  2.02  2.06  2.70  3.20
45  1.01  1.68  2.01  2.06  2.69  3.18
50  1.01  1.68  2.01  2.05  2.68  3.16
100 1.005 1.660 1.984 2.025 2.626 3.077
inf 1.000 1.645 1.960 2.000 2.576 3.000`;

describe("t and normal quantiles: JCGM 100, table G.2", () => {
  test.each(
    G2.trim()
      .split("\n")
      .map((line) => line.split(/\s+/)),
  )("ν = %s", (ν, ...row) => {
    // The table's 68.27, 95.45 and 99.73 % stand for one, two and three standard deviations of a normal distribution.
    [-1, 0.9, 0.95, -2, 0.99, -3].forEach((p, i) => {
      const upper = p < 0 ? normalDistributionFunction(-p) : (1 + p) / 2;
      const k = ν === "inf" ? normalQuantile(upper) : tQuantile(upper, Number(ν));
      const decimals = row[i]!.split(".")[1]!.length;
      expect(k.toFixed(decimals), `p ${p}`).toBe(row[i]);
    });
  });

  test("quantiles are odd, 0 at one half, infinite at the ends", () => {
    for (const quantile of [normalQuantile, (p: number) => tQuantile(p, 2.5), (p: number) => tQuantile(p, 1)]) {
      expect(quantile(0.5)).toBe(0);
      expect(quantile(0)).toBe(-Infinity);
      expect(quantile(1)).toBe(Infinity);
      for (const p of [0.75, 0.5 + 2 ** -30, 1 - 2 ** -30]) expect(quantile(1 - p)).toBe(-quantile(p));
    }
    expect(tDistributionFunction(-Infinity, 3)).toBe(0);
    expect(tDistributionFunction(Infinity, 3)).toBe(1);
  });
});

describe("incomplete gamma and beta functions", () => {
  test("P + Q = 1, whatever side is computed", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 1e5, noNaN: true }),
        fc.double({ min: 0.01, max: 3, noNaN: true }),
        (a, ratio) => {
          expect(Math.abs(lowerGamma(a, a * ratio) + upperGamma(a, a * ratio) - 1)).toBeLessThan(1e-12);
        },
      ),
      { seed: 1 },
    );
  });

  test("Q(n + 1, m) is the sum of Poisson probabilities up to n (Abramowitz & Stegun 26.4.21), large means too", () => {
    for (const m of [0.7, 30, 3000]) {
      let sum = 0;
      for (let n = 0; n <= m + 5; n++) sum += poissonProbability(n, m);
      expect(upperGamma(Math.floor(m + 5) + 1, m) / sum).toBeCloseTo(1, 12);
    }
  });

  test("I_x(a, b) = 1 − I_(1−x)(b, a)", () => {
    for (const [a, b, x] of [
      [0.5, 0.5, 0.3],
      [2, 7, 0.25],
      [40, 0.3, 0.875],
    ] as const) {
      expect(lowerBeta(a, b, x, 1 - x) + lowerBeta(b, a, 1 - x, x)).toBeCloseTo(1, 14);
    }
  });
});

test("the probability of a strip keeps its digits however narrow it is", () => {
  const width = 2 ** -40;
  for (const a of [-30, -3, -0.1, 0, 2, 30]) {
    // The mean density over so narrow a strip is that at its middle, to width²/24·(a² − 1).
    const middle = exp(-0.5 * (a + width / 2) * (a + width / 2)) / Math.sqrt(2 * Math.PI);
    expect(normalStrip(a, width) / width / middle).toBeCloseTo(1, 12);
  }
  expect(normalStrip(-40, 80)).toBe(1);
  expect(normalStrip(1, -1)).toBe(0);
});

const cube = (x: number): number => x * x * x;
const step = (x: number): number => (x < 3 ? 0 : 1);
const flat = (x: number): number => Math.min(x, 1) + Math.max(0, x - 5);

describe("the inverse of a rising function", () => {
  test("solves smooth, kinked, stepped and flat functions, with a wrong slope as well as the right one", () => {
    expect(monotoneInverse(cube, (x) => 3 * x * x, 2, 0, 100)).toBeCloseTo(Math.cbrt(2), 15);
    expect(monotoneInverse(cube, () => 1e-3, 2, 0, 100)).toBeCloseTo(Math.cbrt(2), 15);
    expect(monotoneInverse(cube, () => 0, 2, -100, 100)).toBeCloseTo(Math.cbrt(2), 15);
    expect(monotoneInverse(step, () => 0, 0.5, -10, 10)).toBe(3);
    expect(monotoneInverse(flat, (x) => (x > 1 && x < 5 ? 0 : 1), 1, 0, 10)).toBe(1);
  });

  test("finds places many orders of magnitude below the bracket", () => {
    expect(monotoneInverse(Math.sqrt, () => 0, 1e-100, 0, 1e10) / 1e-200).toBeCloseTo(1, 12);
  });
});
