import cdf from "@stdlib/stats-base-dists-normal-cdf";
import quantile from "@stdlib/stats-base-dists-normal-quantile";
import { exp, ln } from "../elementary/index.ts";
import { gaussLegendre } from "./gauss-legendre.ts";

const ROOT_TWO_PI = 2.5066282746310002;

/** Density of the standard normal distribution. */
export const normalDensity = (z: number): number => exp(-0.5 * z * z) / ROOT_TWO_PI;

/** P(Z ≤ z) of the standard normal distribution. */
export const normalDistributionFunction = (z: number): number => cdf(z, 0, 1);

/**
 * Quantile of the standard normal distribution. The library's rational approximation loses digits in the far tail and
 * fails below about p = 1e-16. Newton steps correct and extend it: in the lower half, where the distribution function
 * is accurate, on its logarithm; near the middle on the probability from the middle.
 */
export function normalQuantile(p: number): number {
  if (p > 0.5) return -normalQuantile(1 - p);
  if (p === 0.5) return 0;
  if (p === 0) return -Infinity;
  if (p > 0.1) {
    const z = quantile(p, 0, 1);
    return z - (0.5 - p - normalStrip(0, -z)) / normalDensity(z);
  }
  // In the far tail Φ(z) ≈ φ(z)/|z|, which gives a starting value within a few per cent.
  const twice = -2 * ln(p * ROOT_TWO_PI);
  let z = p > 1e-10 ? quantile(p, 0, 1) : -Math.sqrt(twice - ln(twice));
  for (let i = 0; i < 6; i++) {
    const F = normalDistributionFunction(z);
    const step = (ln(F / p) * F) / normalDensity(z);
    z -= step;
    if (Math.abs(step) <= 1e-9) break;
  }
  return z;
}

/** P(a < Z ≤ b) to nearly full relative accuracy for any a < b, also in either tail. */
export const normalProbability = (a: number, b: number): number => normalStrip(a, b - a, b);

/**
 * P(a < Z ≤ a + width): however narrow the strip, its probability keeps all digits, which the difference of two
 * distribution functions would lose.
 */
export function normalStrip(a: number, width: number, b = a + width): number {
  if (!(width > 0)) return 0;
  // Over such an interval the density varies little enough for 20 nodes to be exact to the last digit.
  if (width <= 2 && width * Math.max(Math.abs(a), Math.abs(b)) <= 4) return gaussLegendre(normalDensity, a, width);
  return a > 0
    ? normalDistributionFunction(-a) - normalDistributionFunction(-b)
    : normalDistributionFunction(b) - normalDistributionFunction(a);
}
