import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { derivative } from "../../../engine/numerics/derivative.ts";
import { atan, cos, cosh, exp, ln, sin, tanh } from "../../../engine/elementary/index.ts";

type Row = readonly [what: string, f: (x: number) => number, slope: (x: number) => number, x: number, scale: number];

/** A relative error of 1e-9 of a sensitivity coefficient is beyond any budget's digits. */
const RELATIVE = 1e-9;

const rows: Row[] = [
  ["x²", (x) => x * x, (x) => 2 * x, 3, 0.1],
  ["x³ − x", (x) => x * x * x - x, (x) => 3 * x * x - 1, 2, 0.01],
  ["1/x", (x) => 1 / x, (x) => -1 / (x * x), 0.7, 0.01],
  ["√x", Math.sqrt, (x) => 0.5 / Math.sqrt(x), 4, 0.1],
  ["eˣ", exp, exp, 1, 0.05],
  ["e^(−x)", (x) => exp(-x), (x) => -exp(-x), 30, 0.5],
  ["ln x", ln, (x) => 1 / x, 5, 0.2],
  ["sin x", sin, cos, 0.3, 0.02],
  ["cos x at a small angle", cos, (x) => -sin(x), 1e-3, 1e-4],
  ["atan x", atan, (x) => 1 / (1 + x * x), 2, 0.3],
  ["tanh x", tanh, (x) => 1 / (cosh(x) * cosh(x)), 1.5, 0.2],
  ["a linear function", (x) => 3 * x - 7, () => 3, 11, 0.1],
  ["a power product of tiny numbers", (x) => x * x * 1e-30, (x) => 2e-30 * x, 1e-12, 1e-14],
  ["a quotient of huge ones", (x) => 1e30 / x, (x) => -1e30 / (x * x), 1e10, 1e7],
  ["a constant", () => 4, () => 0, 2, 0.1],
  // A platinum resistance over temperature, IEC 60751 coefficients: 100 Ω and 0.39 Ω/°C.
  [
    "a resistance thermometer",
    (t) => 100 * (1 + t * (3.9083e-3 + t * -5.775e-7)),
    (t) => 100 * (3.9083e-3 - 2 * 5.775e-7 * t),
    134,
    0.005,
  ],
];

/** Places where a careless step meets an edge, an offset or rounding. */
const hostile: Row[] = [
  ["ln near 0", ln, (x) => 1 / x, 1e-6, 2e-7],
  ["ln near 0, u as large as a third of x", ln, (x) => 1 / x, 0.003, 0.001],
  ["√x near its edge", Math.sqrt, (x) => 0.5 / Math.sqrt(x), 1e-8, 1e-9],
  ["√(1 − x²) near its edge", (x) => Math.sqrt(1 - x * x), (x) => -x / Math.sqrt(1 - x * x), 0.99, 0.002],
  ["1/(x − 1) beside its pole", (x) => 1 / (x - 1), (x) => -1 / ((x - 1) * (x - 1)), 1.01, 0.001],
  ["1/(1 − x), a pole within 1/64 of x", (x) => 1 / (1 - x), (x) => 1 / ((1 - x) * (1 - x)), 0.99, 0.0005],
  ["tiny u", (x) => x * x, (x) => 2 * x, 100, 1e-7],
  ["tiny u, eˣ", exp, exp, 1, 1e-8],
  ["an offset of 5·10⁷", (x) => 5e7 + x * x, (x) => 2 * x, 300, 5],
  ["a length of 5·10⁷ nm over its expansion", (x) => 5e7 * (1 + 11.5e-6 * x), () => 5e7 * 11.5e-6, 0.1, 0.05],
  ["a large argument", sin, cos, 1e5, 0.001],
  ["x at 0", (x) => exp(x) + x, (x) => exp(x) + 1, 0, 0.1],
];

describe("the derivative against the analytic one", () => {
  test.each(rows)("%s", (_, f, slope, x, scale) => {
    expect(Math.abs(derivative(f, x, scale).value - slope(x))).toBeLessThanOrEqual(RELATIVE * Math.abs(slope(x)));
  });

  test.each(hostile)("%s", (_, f, slope, x, scale) => {
    expect(Math.abs(derivative(f, x, scale).value - slope(x))).toBeLessThanOrEqual(RELATIVE * Math.abs(slope(x)));
  });

  test("at every scale: the same function in other units has the same relative error", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -60, max: 60 }),
        fc.double({ min: 0.5, max: 4, noNaN: true }),
        fc.double({ min: -4, max: -1, noNaN: true }),
        (e, z, relative) => {
          const unit = 10 ** e;
          const { value } = derivative((x) => exp(x / unit), z * unit, z * unit * 10 ** relative);
          expect(Math.abs((value * unit) / exp(z) - 1)).toBeLessThanOrEqual(RELATIVE);
        },
      ),
      { seed: 1 },
    );
  });

  test("its own estimate of the error covers the error, within the rounding of f", () => {
    for (const [what, f, slope, x, scale] of [...rows, ...hostile]) {
      const { value, error } = derivative(f, x, scale);
      // The least step of the extrapolation is 1.4⁹ ≈ 20 times less than its first.
      const rounding = (20 * 2 ** -52 * Math.abs(f(x))) / scale;
      expect(Math.abs(value - slope(x)), what).toBeLessThanOrEqual(
        20 * error + rounding + 4 * 2 ** -52 * Math.abs(slope(x)),
      );
    }
  });

  test("is NaN if the function is nowhere finite", () => {
    expect(derivative(() => Number.NaN, 1, 0.1).value).toBeNaN();
    expect(derivative(Math.sqrt, -1, 0.1).value).toBeNaN();
  });
});
