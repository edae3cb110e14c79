import cdf from "@stdlib/stats-base-dists-normal-cdf";
import quantile from "@stdlib/stats-base-dists-normal-quantile";
import { exp } from "../elementary/index.ts";

const ROOT_TWO_PI = 2.5066282746310002;

/** Density of the standard normal distribution. */
export const normalDensity = (z: number): number => exp(-0.5 * z * z) / ROOT_TWO_PI;

/** P(Z ≤ z) of the standard normal distribution. */
export const normalDistributionFunction = (z: number): number => cdf(z, 0, 1);

/**
 * Quantile of the standard normal distribution. The library's rational approximation loses digits in the far tail
 * (2e-9 relative at p = 1e-10); one Newton step on the distribution function, taken in the lower half where it is
 * accurate, restores them.
 */
export function normalQuantile(p: number): number {
  if (p > 0.5) return -normalQuantile(1 - p);
  if (p === 0.5) return 0;
  const z = quantile(p, 0, 1);
  const density = normalDensity(z);
  return density > 0 && z > -37 ? z - (normalDistributionFunction(z) - p) / density : z;
}
