/**
 * Exact tables for the elementary functions, made when the module is loaded.
 *
 * A real number v is stored as the integer round(v·2^128). Integers are identical on every machine, hence so are the
 * tables, and no list of constants need be trusted: each entry follows from a series that can be read here. Errors are
 * below 2^-115; 32 more bits give the same tables.
 */
const FRACTION = 128n;
const ONE = 1n << FRACTION;

/** n/d as a fixed-point number. */
export function ratio(n: number, d: number): bigint {
  return (BigInt(n) << FRACTION) / BigInt(d);
}

export function product(a: bigint, b: bigint): bigint {
  return (a * b) >> FRACTION;
}

export function quotient(a: bigint, b: bigint): bigint {
  return (a << FRACTION) / b;
}

/** The square root of v ≥ 0, by Newton's method from above. */
export function squareRoot(v: bigint): bigint {
  const square = v << FRACTION;
  let root = v > ONE ? v : ONE;
  for (;;) {
    const next = (root + square / root) >> 1n;
    if (next >= root) return root;
    root = next;
  }
}

/** The double nearest to v. */
export function nearest(v: bigint): number {
  // The scale is a power of two: only the conversion of the integer rounds, to nearest, ties to even (ECMA-262, 6.1.6.2).
  return Number(v) * 2 ** -128;
}

/** The multiple of 2^-bits nearest to v, as a double. */
export function onGrid(v: bigint, bits: number): number {
  const step = FRACTION - BigInt(bits);
  return Number((v + (1n << (step - 1n))) >> step) / Number(1n << BigInt(bits));
}

/** A double (not below 2^-100 unless 0) as a fixed-point number. */
export function exactly(x: number): bigint {
  return BigInt(x * 2 ** 100) << (FRACTION - 100n);
}

/** v minus its high part, as the nearest double. */
export function rest(v: bigint, high: number): number {
  return nearest(v - exactly(high));
}

/** Σ sign^k·t^(2k+1)/(2k+1): the area tangent for sign 1, the arc tangent for sign −1; |t| < 1. */
export function inverseTangent(t: bigint, sign: 1n | -1n): bigint {
  const square = sign * product(t, t);
  let sum = 0n;
  let power = t;
  for (let n = 1n; power !== 0n && power !== -1n; n += 2n) {
    sum += power / n;
    power = product(power, square);
  }
  return sum;
}

/** The logarithm of n/d, from 2·artanh((n − d)/(n + d)); fast for n/d near 1. */
export function logarithm(n: number, d: number): bigint {
  return 2n * inverseTangent(ratio(n - d, n + d), 1n);
}

/** The arc tangent of n/d; fast for small n/d. */
export function arcTangent(n: number, d: number): bigint {
  return inverseTangent(ratio(n, d), -1n);
}

/** Σ t^k/k! over k = first, first + step…, with alternating signs if `alternating`. */
function exponentialSeries(t: bigint, first: 0 | 1, step: 1 | 2): bigint {
  let sum = 0n;
  let term = first === 0 ? ONE : t;
  for (let k = BigInt(first); term !== 0n && term !== -1n;) {
    sum += term;
    for (let s = 0; s < step; s += 1) term = product(term, t) / ++k;
    if (step === 2) term = -term;
  }
  return sum;
}

export const exponential = (t: bigint): bigint => exponentialSeries(t, 0, 1);
export const sine = (t: bigint): bigint => exponentialSeries(t, 1, 2);
export const cosine = (t: bigint): bigint => exponentialSeries(t, 0, 2);

/** ln 2. */
export const LN2 = logarithm(2, 1);
/** ln 10 = 3·ln 2 + ln(10/8). */
export const LN10 = 3n * LN2 + logarithm(10, 8);
/** π, by Machin's formula: 16·arctan(1/5) − 4·arctan(1/239). */
export const PI = 16n * arcTangent(1, 5) - 4n * arcTangent(1, 239);
