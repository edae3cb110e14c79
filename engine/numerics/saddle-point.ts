import gammaln from "@stdlib/math-base-special-gammaln";
import log1pmx from "@stdlib/math-base-special-log1pmx";
import { exp, ln } from "../elementary/index.ts";

/**
 * Saddle-point forms of the probabilities in densities. Forms with logarithms of gamma functions lose a digit for every
 * power of ten of the parameters; these have no large terms that cancel.
 *
 * Source: C. Loader, "Fast and accurate computation of binomial probabilities" (2000).
 */
const HALF_LN_TWO_PI = 0.9189385332046728;
const TWO_PI = 6.283185307179586;

/** ln Γ(x + 1) − [(x + ½) ln x − x + ½ ln 2π], the error of Stirling's formula, for x > 0. */
export function stirlingError(x: number): number {
  if (x <= 15) return gammaln(x + 1) - (x + 0.5) * ln(x) + x - HALF_LN_TWO_PI;
  const x2 = x * x;
  return (1 / 12 - (1 / 360 - (1 / 1260 - (1 / 1680 - (1 / 1188 - 691 / 360360 / x2) / x2) / x2) / x2) / x2) / x;
}

/** x ln(x/m) + m − x for x, m > 0: never negative, 0 at x = m, with full accuracy near it. */
export const deviance = (x: number, m: number): number =>
  m < x / 2 ? x * ln(x / m) + (m - x) : -x * log1pmx((m - x) / x);

/** e^(−m)·m^x / Γ(x + 1) for real x ≥ 0, m ≥ 0: the Poisson probability of x for mean m. */
export function poissonProbability(x: number, m: number): number {
  if (m === 0) return x === 0 ? 1 : 0;
  if (x === 0) return exp(-m);
  if (!Number.isFinite(m)) return 0;
  // So far below the mean, the deviance rounds to m, and (m − x)/x may overflow.
  if (x < m * 1e-300) return exp(-m + x * ln(m) - gammaln(x + 1));
  return exp(-stirlingError(x) - deviance(x, m)) / Math.sqrt(TWO_PI * x);
}

/**
 * Γ(n + 1) / (Γ(x + 1)·Γ(y + 1)) · p^x · q^y with n = x + y, for real x, y ≥ 0: the binomial probability of x.
 *
 * @param q 1 − p, given separately so that neither loses digits
 */
export function binomialProbability(x: number, y: number, p: number, q: number): number {
  if (p === 0) return x === 0 ? 1 : 0;
  if (q === 0) return y === 0 ? 1 : 0;
  const n = x + y;
  if (x === 0) return y === 0 ? 1 : exp(p < 0.1 ? -deviance(n, n * q) - n * p : n * ln(q));
  if (y === 0) return exp(q < 0.1 ? -deviance(n, n * p) - n * q : n * ln(p));
  const logarithm = stirlingError(n) - stirlingError(x) - stirlingError(y) - deviance(x, n * p) - deviance(y, n * q);
  return exp(logarithm) * Math.sqrt(n / (TWO_PI * x * y));
}
