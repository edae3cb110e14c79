import { exactly, exponential, LN2, nearest, onGrid, product, quotient, ratio, rest } from "./fixed-point.ts";

/**
 * The table behind `exp`, `expm1`, `pow` and the hyperbolic functions, after P. T. P. Tang, Table-driven implementation
 * of the exponential function in IEEE floating-point arithmetic, ACM TOMS 15(2), 1989, 144–157.
 *
 * x = n·(ln 2)/128 + r with |r| < 0.0028, n = 128·e + j: exp x = 2^e·2^(j/128)·exp r.
 */
export const STEPS = 128;

/** Steps in one unit of x. */
export const STEPS_PER_UNIT = nearest(quotient(ratio(1, 1), LN2)) * STEPS;

/** (ln 2)/128 in two parts; n·STEP_HIGH is exact for |n| < 2^18. */
export const STEP_HIGH = onGrid(LN2 / 128n, 42);
export const STEP_LOW = rest(LN2 / 128n, STEP_HIGH);

/** Adding and then subtracting this rounds to an integer. */
export const ROUND = 1.5 * 2 ** 52;

/** 2^(j/128) as the nearest double, and its remainder relative to that, for j = 0…127. */
export const exponentialTable = new Float64Array(2 * STEPS);

const step = exponential(LN2 / 128n);
for (let j = 0, value = ratio(1, 1); j < STEPS; j += 1, value = product(value, step)) {
  const base = nearest(value);
  exponentialTable.set([base, nearest(quotient(value - exactly(base), value))], 2 * j);
}
