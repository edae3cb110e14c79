import betainc from "@stdlib/math-base-special-betainc";
import quantile from "@stdlib/stats-base-dists-t-quantile";
import { atan, exp, ln, log1p, tan } from "../elementary/index.ts";
import { deviance, stirlingError } from "./saddle-point.ts";
import { normalDensity, normalDistributionFunction, normalQuantile } from "./standard-normal.ts";

const ROOT_TWO_PI = 2.5066282746310002;
/** Above this number of degrees of freedom, t and normal agree to every digit of a double. */
const AS_NORMAL = 1e17;
/** Above this square of x/√ν, 1 + x²/ν rounds to x²/ν. */
const LARGE = 2 ** 53;

/**
 * Density of Student's t with ν degrees of freedom.
 *
 * Source: C. Loader's saddle-point form, which keeps its digits for large ν; a quotient of gamma functions does not.
 */
export const tDensity = (x: number, degreesOfFreedom: number): number =>
  degreesOfFreedom >= AS_NORMAL ? normalDensity(x) : densityWith(constantOf(degreesOfFreedom), x, degreesOfFreedom);

/** The density for one ν and many x: what depends on ν alone takes half of the time of one value. */
export function tDensityFor(degreesOfFreedom: number): (x: number) => number {
  if (degreesOfFreedom >= AS_NORMAL) return normalDensity;
  let constant: number | null = null;
  return (x) => densityWith((constant ??= constantOf(degreesOfFreedom)), x, degreesOfFreedom);
}

const constantOf = (ν: number): number =>
  stirlingError((ν + 1) / 2) - stirlingError(ν / 2) - deviance(ν / 2, (ν + 1) / 2);

function densityWith(constant: number, x: number, ν: number): number {
  const ratio = (x / ν) * x;
  if (ratio > LARGE) {
    const halfLogarithm = ln(Math.abs(x)) - ln(ν) / 2;
    return exp(constant - (ν + 1) * halfLogarithm) / ROOT_TWO_PI;
  }
  const exponent = ratio > 0.2 ? (ν * log1p(ratio)) / 2 : (x * x) / 2 - deviance(ν / 2, (ν + x * x) / 2);
  return exp(constant - exponent) / (ROOT_TWO_PI * Math.sqrt(1 + ratio));
}

/** P(T ≤ x) of Student's t with ν degrees of freedom. */
export function tDistributionFunction(x: number, degreesOfFreedom: number): number {
  if (degreesOfFreedom >= AS_NORMAL) return normalDistributionFunction(x);
  const p = tail(Math.abs(x), degreesOfFreedom);
  return x > 0 ? 1 - p : p;
}

/** P(T > x) for x ≥ 0. */
function tail(x: number, ν: number): number {
  if (x === Infinity) return 0;
  if (ν === 1) return x > 1 ? atan(1 / x) / Math.PI : 0.5 - atan(x) / Math.PI;
  const ratio = (x / ν) * x;
  if (ratio === Infinity) {
    // This far out the tail is the density times x/ν; its next term is smaller by a factor ν/x².
    return (tDensity(x, ν) * x) / ν;
  }
  return ratio < 0.5
    ? betainc(ratio / (1 + ratio), 0.5, ν / 2, true, true) / 2
    : betainc(1 / (1 + ratio), ν / 2, 0.5) / 2;
}

/** P(0 < T ≤ x) for x ≥ 0 of moderate size: small near the middle, where ½ − P loses all digits. */
function central(x: number, ν: number): number {
  if (ν === 1) return atan(x) / Math.PI;
  const ratio = (x / ν) * x;
  return betainc(ratio / (1 + ratio), 0.5, ν / 2) / 2;
}

/** Quantile of Student's t with ν degrees of freedom. */
export function tQuantile(p: number, degreesOfFreedom: number): number {
  const ν = degreesOfFreedom;
  if (p > 0.5) return -tQuantile(1 - p, ν);
  if (p === 0.5) return 0;
  if (p === 0) return -Infinity;
  if (ν >= AS_NORMAL) return normalQuantile(p);
  if (ν === 1) return p < 0.25 ? -1 / tan(Math.PI * p) : -tan(Math.PI * (0.5 - p));
  const x = -quantile(p, ν);
  if (p < 0.1 || (x / ν) * x > 0.5) return x < Infinity ? -(x + (tail(x, ν) - p) / tDensity(x, ν)) : -x;
  // Near the middle the library's inverse has only absolute accuracy: Newton on the probability from the middle.
  const half = 0.5 - p;
  let z = x;
  for (let i = 0; i < 8; i++) {
    const step = (half - central(z, ν)) / tDensity(z, ν);
    z += step;
    if (Math.abs(step) <= 2 ** -50 * z) break;
  }
  return -z;
}
