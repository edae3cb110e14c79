import cdf from "@stdlib/stats-base-dists-normal-cdf";
import quantile from "@stdlib/stats-base-dists-normal-quantile";
import { exp } from "../elementary/index.ts";
import { gaussLegendre } from "./gauss-legendre.ts";

const ROOT_TWO_PI = 2.5066282746310002;

/** Density of the standard normal distribution. */
export const normalDensity = (z: number): number => exp(-0.5 * z * z) / ROOT_TWO_PI;

/** P(Z ≤ z) of the standard normal distribution. */
export const normalDistributionFunction = (z: number): number => cdf(z, 0, 1);

/**
 * Quantile of the standard normal distribution. The library's rational approximation loses digits in the far tail
 * (2e-9 relative at p = 1e-10); one Newton step on the distribution function, taken in the lower half where it is
 * accurate, restores them. Near the middle the step is taken on the probability from the middle.
 */
export function normalQuantile(p: number): number {
  if (p > 0.5) return -normalQuantile(1 - p);
  if (p === 0.5) return 0;
  const z = quantile(p, 0, 1);
  if (z < -37) return z;
  const excess = z > -1 ? 0.5 - p - normalProbability(z, 0) : normalDistributionFunction(z) - p;
  return z - excess / normalDensity(z);
}

/**
 * P(a < Z ≤ b) to nearly full relative accuracy wherever a < b lie: in either tail, and where they are close, in which
 * case the difference of two distribution functions would keep no digits.
 */
export function normalProbability(a: number, b: number): number {
  if (!(a < b)) return 0;
  const width = b - a;
  // Over such an interval the density changes by a factor that 20 nodes follow to the last digit.
  if (width <= 2 && width * Math.max(Math.abs(a), Math.abs(b)) <= 4) return gaussLegendre(normalDensity, a, b);
  return a > 0
    ? normalDistributionFunction(-a) - normalDistributionFunction(-b)
    : normalDistributionFunction(b) - normalDistributionFunction(a);
}
