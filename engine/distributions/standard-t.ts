import cdf from "@stdlib/stats-base-dists-t-cdf";
import pdf from "@stdlib/stats-base-dists-t-pdf";
import quantile from "@stdlib/stats-base-dists-t-quantile";

/** Density of Student's t with ν degrees of freedom. */
export const tDensity = (x: number, degreesOfFreedom: number): number => pdf(x, degreesOfFreedom);

/** P(T ≤ x) of Student's t with ν degrees of freedom. */
export const tDistributionFunction = (x: number, degreesOfFreedom: number): number => cdf(x, degreesOfFreedom);

/** Quantile of Student's t with ν degrees of freedom. */
export const tQuantile = (p: number, degreesOfFreedom: number): number => quantile(p, degreesOfFreedom);
