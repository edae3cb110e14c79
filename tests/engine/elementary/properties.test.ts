import fc from "fast-check";
import { describe, test } from "vitest";
import { elementary } from "../../../engine/index.ts";

const { acos, asin, atan, atan2, cbrt, cos, cosh, exp, expm1, hypot, ln, log10, log1p, pow, sin, sinh, tan, tanh } =
  elementary;

const SETTINGS = { numRuns: 3000, seed: 20 };
/** Half the distance from 1 to the next double: a value rounded to nearest is off by no more than this part of itself. */
const U = 2 ** -53;

const any = fc.double({ noNaN: true });
const within = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const positive = within(5e-324, Number.MAX_VALUE);
const check = (...parameters: Parameters<typeof fc.property<[number, number]>>) =>
  fc.assert(fc.property(...parameters), SETTINGS);

describe("symmetry is exact, bit for bit", () => {
  const sizes = fc.oneof(any, within(0, 1), within(0, 30), within(0, 1e6));

  test.each(Object.entries({ asin, atan, cbrt, sin, sinh, tan, tanh }))("%s is odd", (_, f) => {
    fc.assert(
      fc.property(sizes, (x) => Object.is(f(-x), -f(x))),
      SETTINGS,
    );
  });

  test.each(Object.entries({ cos, cosh }))("%s is even", (_, f) => {
    fc.assert(
      fc.property(sizes, (x) => Object.is(f(-x), f(x))),
      SETTINGS,
    );
  });

  test("hypot in its arguments and their signs, atan2 in the sign of y, pow in that of x", () => {
    check(any, any, (x, y) => Object.is(hypot(x, y), hypot(-y, x)) && Object.is(atan2(-y, x), -atan2(y, x)));
    check(any, within(-40, 40), (x, y) => {
      const n = Math.round(y);
      return Object.is(pow(-x, n), n % 2 === 0 ? pow(x, n) : -pow(x, n));
    });
  });
});

describe("order is kept", () => {
  // Two values that differ by more than what both may be off must not change places. With both within one unit of the
  // last place (2U of the value at most), that is so where the true values differ by 8U of the greater, which the gap
  // sees to: `gap` is how far apart arguments must be, as a part of the greater, for the function to rise so much.
  const RISING: readonly [string, (x: number) => number, number, number, (x: number) => number][] = [
    ["exp", exp, -700, 700, () => 8 * U],
    ["expm1", expm1, -30, 700, (x) => 8 * U * Math.max(1, Math.exp(-x))],
    ["ln", ln, 1e-300, 1e300, (x) => 8 * U * x * Math.abs(Math.log(x)) + 8 * U * x],
    ["log10", log10, 1e-300, 1e300, (x) => 8 * U * x * Math.abs(Math.log(x)) + 8 * U * x],
    ["log1p", log1p, -0.99, 1e300, (x) => 8 * U * (1 + x) * Math.abs(Math.log1p(x)) + 8 * U * Math.abs(x)],
    ["atan", atan, -100, 100, (x) => 8 * U * (1 + x * x) * 2],
    ["asin", asin, -1, 1, () => 8 * U * 2],
    ["cbrt", cbrt, -1e300, 1e300, (x) => 24 * U * Math.abs(x)],
    ["sinh", sinh, -700, 700, (x) => 8 * U * Math.max(1, Math.abs(x))],
    ["tanh", tanh, -5, 5, () => 8 * U * 5505], // cosh²(5) = 5507
    ["sin", sin, -1.5, 1.5, () => 8 * U * 15], // 1/cos 1.5 = 14.1
    ["tan", tan, -1.5, 1.5, () => 8 * U * 15],
  ];

  test.each(RISING)("%s never falls", (_, f, low, high, gap) => {
    const near = fc.tuple(within(low, high), within(1, 1000)).map(([x, times]) => [x, x + times * gap(x)] as const);
    const pairs = fc.oneof(near, fc.tuple(within(low, high), within(low, high)));
    fc.assert(
      fc.property(pairs, ([a, b]) => {
        const [x, y] = a < b ? [a, b] : [b, a];
        if (y > high || y - x < Math.max(gap(x), gap(y))) return true;
        return f(x) <= f(y);
      }),
      SETTINGS,
    );
  });

  test("acos never rises", () => {
    check(within(-1, 1), within(32, 1e6), (x, times) => x + times * U > 1 || acos(x + times * U) <= acos(x));
  });
});

describe("inverse functions agree within their rounding errors", () => {
  // Off by one unit (2U) each at most; the first error e grows to e·x·f'(x)/f(x) of the second value.
  test("exp(ln x) = x", () => {
    fc.assert(
      fc.property(positive, (x) => {
        const off = Math.abs(exp(ln(x)) - x);
        // Below 2^-1022 the last place is 2^-1074 whatever x is.
        return off <= x * (2 * U * Math.abs(ln(x)) + 2 * U) * 1.01 + 2 ** -1074;
      }),
      SETTINGS,
    );
  });

  test("ln(exp x) = x", () => {
    fc.assert(
      fc.property(within(-700, 700), (x) => Math.abs(ln(exp(x)) - x) <= 2.02 * U * (1 + Math.abs(x))),
      SETTINGS,
    );
  });

  test("log1p(expm1 x) = x", () => {
    // expm1 is off by 2U of itself, which is 2U·(1 − e^-x) in x.
    fc.assert(
      fc.property(
        within(-30, 700),
        (x) => Math.abs(log1p(expm1(x)) - x) <= 2.02 * U * (Math.abs(-Math.expm1(-x)) + Math.abs(x)),
      ),
      SETTINGS,
    );
  });

  test("cbrt(x)³ = x", () => {
    fc.assert(
      fc.property(within(1e-90, 1e90), (x) => Math.abs(pow(cbrt(x), 3) - x) <= 8.1 * U * x),
      SETTINGS,
    );
  });

  test("tan(atan x) = x", () => {
    // atan is off by 2U of itself; tan grows it by (1 + x²)·atan(x)/x.
    fc.assert(
      fc.property(
        within(-1e4, 1e4),
        (x) => Math.abs(tan(atan(x)) - x) <= 2.02 * U * ((1 + x * x) * Math.abs(Math.atan(x)) + Math.abs(x)),
      ),
      SETTINGS,
    );
  });

  test("atan2 and hypot give the point back", () => {
    check(within(-1e6, 1e6), within(-1e6, 1e6), (x, y) => {
      const size = hypot(x, y);
      const angle = atan2(y, x);
      // 2U for each function, π of them for the angle, and U for the product.
      const bound = size * U * (2 + 2 + 1 + 2 * Math.PI) + 2 ** -1070;
      return Math.abs(size * cos(angle) - x) <= bound && Math.abs(size * sin(angle) - y) <= bound;
    });
  });

  test("sin² + cos² = 1, cosh² − sinh² = 1", () => {
    fc.assert(
      fc.property(any, (x) => {
        if (!Number.isFinite(x)) return true;
        return Math.abs(sin(x) * sin(x) + cos(x) * cos(x) - 1) <= 7 * U;
      }),
      SETTINGS,
    );
    fc.assert(
      fc.property(
        within(-5, 5),
        (x) => Math.abs(cosh(x) * cosh(x) - sinh(x) * sinh(x) - 1) <= 12 * U * cosh(x) * cosh(x),
      ),
      SETTINGS,
    );
  });

  test("pow of half and of one is the root and the number", () => {
    fc.assert(
      fc.property(positive, (x) => Math.abs(pow(x, 0.5) - Math.sqrt(x)) <= 2 * U * Math.sqrt(x) && pow(x, 1) === x),
      SETTINGS,
    );
  });
});

test("NaN only for arguments without a value", () => {
  const whole = { acos: 1, asin: 1, sin: Infinity, cos: Infinity, tan: Infinity };
  for (const [name, f] of Object.entries({ acos, asin, atan, cbrt, cos, cosh, exp, expm1, sin, sinh, tan, tanh })) {
    const limit = whole[name as keyof typeof whole];
    fc.assert(
      fc.property(
        any,
        (x) => Number.isNaN(f(x)) === (limit === 1 ? Math.abs(x) > 1 : limit === Infinity && Math.abs(x) === Infinity),
      ),
      SETTINGS,
    );
  }
});
