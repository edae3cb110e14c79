import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { elementary } from "../../../engine/index.ts";

type Name = keyof typeof elementary;
const functions: Readonly<Record<Name, (...x: number[]) => number>> = { ...elementary };

// [arguments…, nearest double, what the true value has beyond it in units of its last place]
const reference = JSON.parse(readFileSync(new URL("../../reference/elementary.json", import.meta.url), "utf8")) as {
  readonly values: Readonly<Record<Name, readonly (readonly number[])[]>>;
};

/** The distance from |x| to the next larger double. */
function ulp(x: number): number {
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, Math.abs(x));
  view.setBigUint64(0, view.getBigUint64(0) + 1n);
  return view.getFloat64(0) - Math.abs(x);
}

/**
 * The bounds the functions state of themselves, in units of the last place. Below 2^-1022 the last place is worth more
 * than the 53 bits that are computed, and scaling rounds a second time: 1 there.
 */
const BOUNDS: Readonly<Record<Name, number>> = {
  acos: 0.66,
  asin: 0.76,
  atan: 0.53,
  atan2: 0.53,
  cbrt: 0.501,
  cos: 0.8,
  cosh: 0.55,
  exp: 0.52,
  expm1: 0.6,
  hypot: 0.52,
  ln: 0.75,
  log10: 0.55,
  log1p: 0.76,
  pow: 0.55,
  sin: 0.8,
  sinh: 0.55,
  tan: 0.9,
  tanh: 0.55,
};

// Source of every figure: tests/reference/elementary.py (mpmath, 60 digits; 420 for sin, cos, tan).
describe("elementary functions keep their bounds, none above one unit of the last place", () => {
  test.each(Object.entries(functions) as [Name, (...x: number[]) => number][])("%s", (name, f) => {
    const rows = reference.values[name];
    expect(rows.length).toBeGreaterThanOrEqual(250);
    let worst = 0;
    let where = "";
    for (const row of rows) {
      const [nearest, fraction] = row.slice(-2) as [number, number];
      const error = Math.abs((f(...row.slice(0, -2)) - nearest) / ulp(nearest) - fraction);
      const share = error / (Math.abs(nearest) < 2 ** -1022 ? 1 : BOUNDS[name]);
      if (!(share <= worst)) {
        worst = share;
        where = row.slice(0, -2).join(", ");
      }
    }
    expect(BOUNDS[name]).toBeLessThanOrEqual(1);
    expect(worst, `at ${where}`).toBeLessThanOrEqual(1);
  });
});

describe("a value that is a double is exact", () => {
  test("logarithms to base 10 of the powers of ten", () => {
    for (let n = -307; n <= 308; n += 1) expect(elementary.log10(Number(`1e${n}`)), `1e${n}`).toBe(n);
  });

  test("powers of whole numbers, as BigInt has them", () => {
    let cases = 0;
    for (let base = 1n; base < 1200n; base += 1n) {
      for (let exponent = 1n, power = base; power < 2n ** 53n && exponent < 60n; exponent += 1n, power *= base) {
        expect(elementary.pow(Number(base), Number(exponent)), `${base}^${exponent}`).toBe(Number(power));
        expect(elementary.pow(-Number(base), Number(exponent))).toBe(Number(exponent % 2n === 0n ? power : -power));
        if (exponent === 3n) expect(elementary.cbrt(Number(-power))).toBe(-Number(base));
        cases += 1;
      }
    }
    expect(cases).toBeGreaterThan(5000);
  });

  test("powers of two over the whole range, whole and half exponents", () => {
    for (let e = -1074; e < 1024; e += 1) {
      expect(elementary.pow(2, e), `2^${e}`).toBe(2 ** e);
      expect(elementary.pow(4, e / 2), `4^${e / 2}`).toBe(2 ** e);
      expect(elementary.pow(0.5, -e), `0.5^${-e}`).toBe(2 ** e);
      if (e % 3 === 0) expect(elementary.cbrt(2 ** e)).toBe(2 ** (e / 3));
    }
  });

  // Euclid, Elements X, lemma 1 to prop. 29: (m² − n²)² + (2·m·n)² = (m² + n²)².
  test("hypotenuses of whole triangles, scaled", () => {
    for (let m = 2; m < 40; m += 1) {
      for (let n = 1; n < m; n += 1) {
        for (const scale of [1, 2 ** -1060, 2 ** 600, 2 ** 1010]) {
          expect(elementary.hypot((m * m - n * n) * scale, 2 * m * n * scale)).toBe((m * m + n * n) * scale);
        }
      }
    }
  });
});
