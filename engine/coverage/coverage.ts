import { normalDistributionFunction, normalQuantile } from "../distributions/standard-normal.ts";
import { tQuantile } from "../distributions/standard-t.ts";
import type { Study } from "../study.ts";

/**
 * What coverage a study asks for. Both customs of the trade are served: a probability, for which k follows from t at
 * the effective degrees of freedom (JCGM 100, G.6.4), or a fixed k, which claims the probability that it has for a
 * normal distribution (k = 2: 95.45 %).
 */
export interface Coverage {
  readonly custom: "probability" | "factor";
  /** The probability asked for, or claimed by the fixed factor: the Monte Carlo interval is taken at it. */
  readonly probability: number;
  readonly interval: "symmetric" | "shortest";
  /** Coverage factor for these effective degrees of freedom. */
  factor(effectiveDegreesOfFreedom: number): number;
}

export function coverageOf({ probability, factor, interval }: Study["coverage"]): Coverage {
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
      // JCGM 100, G.4.1: ν_eff that is no integer is truncated to the next lower one.
      return ν === Infinity ? normalQuantile(upper) : tQuantile(upper, Math.max(1, Math.floor(ν)));
    },
  };
}
