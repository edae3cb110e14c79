import { normalDistributionFunction, normalQuantile } from "../numerics/standard-normal.ts";
import { tQuantile } from "../numerics/standard-t.ts";
import type { CoverageStatement } from "../study/coverage-statement.ts";

/**
 * The coverage of a study. Both conventions are possible: a probability, for which k follows from t at the effective
 * degrees of freedom (JCGM 100, G.6.4), or a fixed k, whose probability is that for a normal distribution (k = 2:
 * 95.45 %).
 */
export interface Coverage {
  readonly custom: "probability" | "factor";
  /** The stated probability, or that of the fixed factor, also used for the Monte Carlo interval. */
  readonly probability: number;
  readonly interval: "symmetric" | "shortest";
  /** Coverage factor for these effective degrees of freedom. */
  factor(effectiveDegreesOfFreedom: number): number;
}

export function coverageOf({ probability, factor, interval }: CoverageStatement): Coverage {
  if (factor !== undefined) {
    return {
      custom: "factor",
      probability: 1 - 2 * normalDistributionFunction(-factor),
      interval,
      factor: () => factor,
    };
  }
  const upper = (1 + probability!) / 2;
  return {
    custom: "probability",
    probability: probability!,
    interval,
    factor(ν) {
      return ν === Infinity ? normalQuantile(upper) : tQuantile(upper, wholeDegreesOfFreedom(ν));
    },
  };
}

/**
 * Possible error of ν_eff: sensitivity coefficients are known to 1e-9 of themselves, and it takes their fourth powers.
 * Where ν_eff is so large that this reaches whole numbers, they no longer matter to k.
 */
const rounding = (ν: number): number => Math.min(1e-7 * ν, 1e-3);

/**
 * Degrees of freedom as k takes them: cut down to a whole number (JCGM 100, G.4.1, note). A whole number that binary
 * arithmetic or a numerical derivative misses by a rounding error still counts as whole; below 1 there is no lower whole
 * number that a t distribution has, and ν stays as it is.
 */
export const wholeDegreesOfFreedom = (ν: number): number => Math.floor(ν + rounding(ν)) || ν;
