import { describe, expect, test } from "vitest";
import { elementary } from "../../../engine/index.ts";

const functions: Readonly<Record<string, (...x: number[]) => number>> = { ...elementary };
const { PI } = Math;
const NONE = NaN;
const ALL = Infinity;

// ECMA-262, 16th edition (2025), 21.3.2 (Math.acos … Math.tanh): what is not left to the implementation, and the limits.
const ONE: Readonly<Record<string, readonly (readonly [number, number])[]>> = {
  acos: [
    [NONE, NONE],
    [1.0000000000000002, NONE],
    [-1.0000000000000002, NONE],
    [ALL, NONE],
    [1, 0],
    [-1, PI],
    [0, PI / 2],
  ],
  asin: [
    [NONE, NONE],
    [1.0000000000000002, NONE],
    [-1.0000000000000002, NONE],
    [0, 0],
    [-0, -0],
    [1, PI / 2],
    [-1, -PI / 2],
    [5e-324, 5e-324],
  ],
  atan: [
    [NONE, NONE],
    [0, 0],
    [-0, -0],
    [ALL, PI / 2],
    [-ALL, -PI / 2],
    [1e308, PI / 2],
    [-5e-324, -5e-324],
  ],
  cbrt: [
    [NONE, NONE],
    [0, 0],
    [-0, -0],
    [ALL, ALL],
    [-ALL, -ALL],
    [-8, -2],
    [2 ** -1074, 2 ** -358],
  ],
  cos: [
    [NONE, NONE],
    [0, 1],
    [-0, 1],
    [ALL, NONE],
    [-ALL, NONE],
    [5e-324, 1],
  ],
  cosh: [
    [NONE, NONE],
    [0, 1],
    [-0, 1],
    [ALL, ALL],
    [-ALL, ALL],
    [710.475860073944, ALL],
    [-710.475860073944, ALL],
  ],
  exp: [
    [NONE, NONE],
    [0, 1],
    [-0, 1],
    [ALL, ALL],
    [-ALL, 0],
    [709.7827128933841, ALL],
    [-745.1332191019412, 0],
    [-745.133219101941, 5e-324],
    [5e-324, 1],
  ],
  expm1: [
    [NONE, NONE],
    [0, 0],
    [-0, -0],
    [ALL, ALL],
    [-ALL, -1],
    [709.7827128933841, ALL],
    [-38, -1],
    [-1e300, -1],
    [5e-324, 5e-324],
  ],
  ln: [
    [NONE, NONE],
    [0, -ALL],
    [-0, -ALL],
    [-5e-324, NONE],
    [-1, NONE],
    [-ALL, NONE],
    [1, 0],
    [ALL, ALL],
  ],
  log10: [
    [NONE, NONE],
    [0, -ALL],
    [-0, -ALL],
    [-5e-324, NONE],
    [-1, NONE],
    [-ALL, NONE],
    [1, 0],
    [ALL, ALL],
  ],
  log1p: [
    [NONE, NONE],
    [0, 0],
    [-0, -0],
    [-1, -ALL],
    [-1.0000000000000002, NONE],
    [-ALL, NONE],
    [ALL, ALL],
    [5e-324, 5e-324],
  ],
  sin: [
    [NONE, NONE],
    [0, 0],
    [-0, -0],
    [ALL, NONE],
    [-ALL, NONE],
    [5e-324, 5e-324],
  ],
  sinh: [
    [NONE, NONE],
    [0, 0],
    [-0, -0],
    [ALL, ALL],
    [-ALL, -ALL],
    [710.475860073944, ALL],
    [-710.475860073944, -ALL],
    [-5e-324, -5e-324],
  ],
  tan: [
    [NONE, NONE],
    [0, 0],
    [-0, -0],
    [ALL, NONE],
    [-ALL, NONE],
    [5e-324, 5e-324],
  ],
  tanh: [
    [NONE, NONE],
    [0, 0],
    [-0, -0],
    [ALL, 1],
    [-ALL, -1],
    [20, 1],
    [5e-324, 5e-324],
  ],
};

describe("special values are those of ECMAScript", () => {
  test.each(Object.entries(ONE))("%s", (name, cases) => {
    const f = functions[name]!;
    for (const [x, value] of cases) expect(f(x), `${name}(${Object.is(x, -0) ? "-0" : x})`).toBe(value);
  });

  // Where every engine must agree, the engine the test runs on is as good as the text: of two arguments there are too
  // many cases to write out. ECMA-262: Number::exponentiate (6.1.6.1.3), Math.atan2 (21.3.2.8), Math.hypot (21.3.2.18).
  const corners = [
    0,
    -0,
    1,
    -1,
    0.5,
    -0.5,
    2,
    -2,
    3,
    -3,
    ALL,
    -ALL,
    NONE,
    5e-324,
    -5e-324,
    2 ** 53,
    -(2 ** 53),
    2 ** 1023,
    -(2 ** 1023),
  ];
  const fixed = (x: number): boolean => x === 0 || !Number.isFinite(x) || Number.isInteger(Math.log2(Math.abs(x)));

  test.each(["pow", "hypot"] as const)("%s over the corners", (name) => {
    let cases = 0;
    for (const x of corners) {
      for (const y of corners) {
        const value = Math[name](x, y);
        if (!fixed(value)) continue;
        expect(functions[name]!(x, y), `${name}(${x}, ${y})`).toBe(value);
        cases += 1;
      }
    }
    expect(cases).toBeGreaterThan(180);
  });

  test("atan2 over the corners", () => {
    for (const y of corners) {
      for (const x of corners) {
        const behind = x < 0 || Object.is(x, -0);
        const sign = y < 0 || Object.is(y, -0) ? -1 : 1;
        const found = elementary.atan2(y, x);
        const label = `atan2(${y}, ${x})`;
        if (Number.isNaN(x) || Number.isNaN(y)) expect(found, label).toBeNaN();
        else if (y === 0) expect(found, label).toBe(behind ? sign * PI : sign < 0 ? -0 : 0);
        else if (x === 0) expect(found, label).toBe((sign * PI) / 2);
        else if (Math.abs(y) === ALL)
          expect(found, label).toBe(sign * (Math.abs(x) < ALL ? PI / 2 : behind ? 0.75 * PI : PI / 4));
        else if (Math.abs(x) === ALL) expect(found, label).toBe(behind ? sign * PI : sign < 0 ? -0 : 0);
        else if (Math.abs(x) === Math.abs(y)) expect(found, label).toBe(sign * (behind ? 0.75 * PI : PI / 4));
        else
          expect([found === 0, found < 0 || Object.is(found, -0)], label).toEqual([
            !behind && Math.abs(y / x) < 2 ** -1074,
            sign < 0,
          ]);
      }
    }
  });
});
