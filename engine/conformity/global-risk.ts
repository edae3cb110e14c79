import type { Distribution } from "../distributions/distribution.ts";
import { normalProbability } from "../numerics/standard-normal.ts";
import { refuse } from "../errors.ts";
import { adaptiveIntegral } from "../numerics/adaptive-integral.ts";
import type { Acceptance } from "./acceptance.ts";
import type { Tolerance } from "../tolerance.ts";

/** Risks of the next item, before it is measured (JCGM 106:2012, 9.5). */
export interface GlobalRisk {
  /** R_C: probability that an item does not conform and is accepted. */
  readonly consumer: number;
  /** R_P: probability that an item conforms and is rejected. */
  readonly producer: number;
}

/** Absolute error allowed per panel of the integrals, far below any risk that is printed. */
const TOLERANCE = 1e-14;
/** Prior probability left out at each end. */
const LEFT_OUT = 1e-15;
/** Measurement errors are followed to this many standard uncertainties (2e-19 beyond). */
const REACH = 9;

/**
 * Global consumer's and producer's risk by numerical integration (JCGM 106:2012, 9.5.2 and 9.5.3): with g₀ the prior of
 * the items and a normal measurement,
 *
 *   R_C = ∫ outside the tolerance of g₀(η)·P(accepted | η) dη,  R_P = ∫ inside of g₀(η)·(1 − P(accepted | η)) dη.
 *
 * @param prior any continuous distribution of the items
 * @param standardUncertainty of the measurement, u_m > 0
 * @param acceptance `null`: nothing is accepted
 * @throws {InputError} a discrete prior, or an uncertainty that is not greater than 0
 */
export function globalRisk(
  prior: Distribution,
  standardUncertainty: number,
  tolerance: Tolerance,
  acceptance: Acceptance | null,
): GlobalRisk {
  const u = standardUncertainty;
  if (prior.discrete === true) refuse("prior", "a discrete distribution", "a continuous distribution of the items");
  if (!(u > 0) || !Number.isFinite(u)) refuse("standardUncertainty", u, "a finite number greater than 0");
  const [low, high] = [prior.quantile(LEFT_OUT), prior.quantile(1 - LEFT_OUT)];
  const [lower, upper] = [tolerance.lower ?? -Infinity, tolerance.upper ?? Infinity];
  const edges = acceptance === null ? [] : [acceptance.lower, acceptance.upper].filter((edge) => edge !== null);
  const abrupt = [
    ...edges.flatMap((edge) => [edge - REACH * u, edge - u, edge, edge + u, edge + REACH * u]),
    ...QUANTILES.map((p) => prior.quantile(p)),
  ];
  const over = (from: number, to: number, f: (η: number) => number): number => {
    const [start, end] = [Math.max(low, from), Math.min(high, to)];
    if (!(end > start)) return 0;
    const within = abrupt.filter((point) => point > start && point < end).sort((a, b) => a - b);
    return adaptiveIntegral(f, [start, ...within, end], TOLERANCE);
  };
  const accepted = acceptance === null ? () => 0 : acceptanceProbability(acceptance, u);
  const rejected = acceptance === null ? () => 1 : rejectionProbability(acceptance, u);
  const wrongly = (η: number): number => prior.density(η) * accepted(η);
  return {
    consumer: over(-Infinity, lower, wrongly) + over(upper, Infinity, wrongly),
    producer: over(lower, upper, (η) => prior.density(η) * rejected(η)),
  };
}

/** Probabilities whose quantiles are panel ends, so that no prior is too narrow to be seen. */
const QUANTILES: readonly number[] = [1e-9, 1e-6, 1e-3, 0.02, 0.16, 0.5, 0.84, 0.98, 0.999, 1 - 1e-6, 1 - 1e-9];

/** P(A_L ≤ Y_m ≤ A_U | η). */
function acceptanceProbability({ lower, upper }: Acceptance, u: number): (η: number) => number {
  const [from, to] = [lower ?? -Infinity, upper ?? Infinity];
  return (η) => normalProbability((from - η) / u, (to - η) / u);
}

/** 1 − P(A_L ≤ Y_m ≤ A_U | η), from its two tails. */
function rejectionProbability({ lower, upper }: Acceptance, u: number): (η: number) => number {
  const [from, to] = [lower ?? -Infinity, upper ?? Infinity];
  return (η) => normalProbability(-Infinity, (from - η) / u) + normalProbability((to - η) / u, Infinity);
}
