import { elementary } from "../../../engine/index.ts";

const { exp, ln } = elementary;

/**
 * The reference function W_r(T₉₀) of the International Temperature Scale of 1990 (Metrologia 27 (1990) 3–10, erratum
 * 27, 107), equations (9a) and (10a), coefficients of table 4.
 *
 * BRANCH RULE. The scale defines both branches from 273.15 K to 273.16 K, and they are not quite equal there: at
 * 273.16 K the lower gives 0.99999999000, the upper 0.99999999535, 5.3e-9 (1.3 µK) apart. Here the lower is used for
 * T < 273.16 K and the upper from 273.16 K on; the inverse follows the same rule (`inverse.ts`), so that T → W → T
 * closes on both sides.
 */
export const TRIPLE_POINT = 273.16;
/** Ends of the platinum part of the scale, K: the triple point of equilibrium hydrogen, the freezing point of silver. */
export const LOWEST = 13.8033;
export const HIGHEST = 1234.93;

/**
 * How far beyond an end of a range a value in a trial may lie, K. An estimate at a fixed point that ends a range lies
 * beyond it in half of all trials; the functions are smooth there. What is farther out gives NaN.
 */
export const OVERSHOOT = 0.1;

/** A₀…A₁₂ of equation (9a). */
export const A: readonly number[] = [
  -2.13534729, 3.1832472, -1.80143597, 0.71727204, 0.50344027, -0.61899395, -0.05332322, 0.28021362, 0.10715224,
  -0.29302865, 0.04459872, 0.11868632, -0.05248134,
];

/** C₀…C₉ of equation (10a). */
export const C: readonly number[] = [
  2.78157254, 1.64650916, -0.1371439, -0.00649767, -0.00234444, 0.00511868, 0.00187982, -0.00204472, -0.00046122,
  0.00045724,
];

/**
 * x ↦ Σ cᵢxⁱ for up to 16 coefficients. Even and odd powers apart: two chains that a processor runs side by side, nearly
 * twice as fast as one. Written out, since it stands in the inner loop: a third of the time of a loop over the
 * coefficients. A coefficient of 0 in front changes no bit.
 */
export function polynomial(c: readonly number[]): (x: number) => number {
  const [
    c0 = 0,
    c1 = 0,
    c2 = 0,
    c3 = 0,
    c4 = 0,
    c5 = 0,
    c6 = 0,
    c7 = 0,
    c8 = 0,
    c9 = 0,
    c10 = 0,
    c11 = 0,
    c12 = 0,
    c13 = 0,
    c14 = 0,
    c15 = 0,
  ] = c;
  if (c.length <= 10) {
    return (x) => {
      const z = x * x;
      return c0 + z * (c2 + z * (c4 + z * (c6 + z * c8))) + x * (c1 + z * (c3 + z * (c5 + z * (c7 + z * c9))));
    };
  }
  return (x) => {
    const z = x * x;
    return (
      c0 +
      z * (c2 + z * (c4 + z * (c6 + z * (c8 + z * (c10 + z * (c12 + z * c14)))))) +
      x * (c1 + z * (c3 + z * (c5 + z * (c7 + z * (c9 + z * (c11 + z * (c13 + z * c15)))))))
    );
  };
}

/** The coefficients of d/dx Σ cᵢxⁱ. */
export const derivativeOf = (c: readonly number[]): readonly number[] => c.slice(1).map((value, i) => (i + 1) * value);

const lowerPolynomial = polynomial(A);
const lowerPolynomialSlope = polynomial(derivativeOf(A));

/** ln W_r of the lower branch as a function of ln(T/273.16 K). */
export const lowerLogarithm = (u: number): number => lowerPolynomial((u + 1.5) / 1.5);
/** d ln W_r / d ln T of the lower branch. */
export const lowerLogarithmSlope = (u: number): number => lowerPolynomialSlope((u + 1.5) / 1.5) / 1.5;

/** W_r of the upper branch as a function of x = (T − 754.15 K)/481 K, and its derivative. */
export const upperRatio = polynomial(C);
export const upperSlope = polynomial(derivativeOf(C));

/** W_r(T), T in K; NaN more than 0.1 K beyond 13.8033 K to 1234.93 K. */
export function referenceRatio(T: number): number {
  if (!(T >= LOWEST - OVERSHOOT && T <= HIGHEST + OVERSHOOT)) return Number.NaN;
  return T < TRIPLE_POINT ? exp(lowerLogarithm(ln(T / TRIPLE_POINT))) : upperRatio((T - 754.15) / 481);
}

/** dW_r/dT, 1/K; NaN if `referenceRatio` is. */
export function referenceSlope(T: number): number {
  if (!(T >= LOWEST - OVERSHOOT && T <= HIGHEST + OVERSHOOT)) return Number.NaN;
  if (T >= TRIPLE_POINT) return upperSlope((T - 754.15) / 481) / 481;
  const u = ln(T / TRIPLE_POINT);
  return (exp(lowerLogarithm(u)) * lowerLogarithmSlope(u)) / T;
}
