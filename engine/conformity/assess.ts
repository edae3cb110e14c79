import { normalDistribution } from "../distributions/normal.ts";
import type { LinearBudget } from "../linear/budget.ts";
import type { ConformityFigures } from "../record/figures.ts";
import type { MonteCarloRecord } from "../record/record.ts";
import type { Sample } from "../statistics/sample.ts";
import { acceptanceInterval, accepts, guardBandsOf, ruleName, type GuardBands, type RuleName } from "./acceptance.ts";
import type { AssessmentRecord } from "../record/conformity.ts";
import type { Requirement } from "../study/conformity-statement.ts";
import { globalRisk, type GlobalRisk } from "./global-risk.ts";
import { normalPosterior } from "./posterior.ts";
import { conformityOfBudget, conformityOfSample, type ProbabilityOfConformity } from "./probability-of-conformity.ts";

const RULE_SOURCES: Readonly<Record<RuleName, string>> = {
  "simple acceptance": "JCGM 106:2012, 8.2",
  "guarded acceptance": "JCGM 106:2012, 8.3.2",
  "guarded rejection": "JCGM 106:2012, 8.3.3",
};

/** What is assessed: one measurand with the result of each method. */
export interface Assessed {
  readonly linear: Pick<
    LinearBudget,
    "estimate" | "standardUncertainty" | "expandedUncertainty" | "interval" | "effectiveDegreesOfFreedom"
  >;
  readonly monteCarlo: MonteCarloRecord;
  readonly sample: Sample;
  /** The study's coverage interval. */
  readonly interval: "symmetric" | "shortest";
}

/**
 * Assesses one measurand against its requirement by the Monte Carlo distribution and by the linear budget, each with its
 * own estimate, uncertainty and guard band (JCGM 106:2012, clauses 7 to 9).
 */
export const assessConformity = (requirement: Requirement, { sample, ...found }: Assessed): ConformityFigures =>
  assessFound(requirement, found, conformityOfSample(sample, requirement.tolerance));

/** The assessment where the share of the trials that conform is known already, as a record states it. */
export function assessFound(
  requirement: Requirement,
  { linear, monteCarlo, interval }: Omit<Assessed, "sample">,
  found: ReturnType<typeof conformityOfSample>,
): ConformityFigures {
  const { tolerance, guardBandMultiplier, prior } = requirement;
  const [low, high] = monteCarlo.intervals[interval];
  const byBudget = assess(requirement, {
    estimate: linear.estimate,
    standardUncertainty: linear.standardUncertainty,
    expandedUncertainty: linear.expandedUncertainty,
    interval: linear.interval,
    scatter: NO_SCATTER,
    ...conformityOfBudget(linear.estimate, linear.standardUncertainty, linear.effectiveDegreesOfFreedom, tolerance),
    standardError: null,
  });
  const bySample = assess(requirement, {
    // For a distribution without a mean, use the budget's estimate.
    estimate: monteCarlo.estimate ?? linear.estimate,
    standardUncertainty: monteCarlo.standardUncertainty,
    expandedUncertainty: (high - low) / 2,
    interval: [low, high],
    scatter: scatterOf(monteCarlo, interval),
    ...found,
  });
  const name = ruleName(guardBandMultiplier);
  return {
    tolerance,
    rule: { name, guardBandMultiplier, source: RULE_SOURCES[name] },
    prior:
      prior === null
        ? null
        : {
            ...prior,
            probabilityOfConformity: conformityOfBudget(prior.mean, prior.standardDeviation, Infinity, tolerance).value,
          },
    linear: byBudget,
    monteCarlo: bySample,
    agree: byBudget.decision === bySample.decision,
  };
}

/** What a method found. */
interface Found extends ProbabilityOfConformity {
  readonly estimate: number;
  readonly standardUncertainty: number | null;
  readonly expandedUncertainty: number;
  readonly interval: readonly [low: number, high: number];
  readonly standardError: number | null;
  readonly scatter: Scatter;
}

/** Standard errors of what a decision rests on; infinite where they are not known. */
interface Scatter {
  readonly estimate: number;
  readonly low: number;
  readonly high: number;
}

/** A budget has none. */
const NO_SCATTER: Scatter = { estimate: 0, low: 0, high: 0 };

function scatterOf({ estimate, standardErrors }: MonteCarloRecord, interval: Assessed["interval"]): Scatter {
  const [low, high] = standardErrors[interval] ?? [Infinity, Infinity];
  // Without a mean the budget's estimate stands in.
  return { estimate: estimate === null ? 0 : (standardErrors.estimate ?? Infinity), low, high };
}

function assess({ tolerance, guardBandMultiplier, prior }: Requirement, found: Found): AssessmentRecord {
  const { estimate, standardUncertainty: u, expandedUncertainty, value, below, above, standardError } = found;
  const guardBands = guardBandsOf(guardBandMultiplier, estimate, found.interval);
  const acceptance = acceptanceInterval(tolerance, guardBands);
  const accepted = accepts(acceptance, estimate);
  const { lower, upper } = tolerance;
  // The wider band of the limits that exist.
  const bands = [...(lower === null ? [] : [guardBands.lower]), ...(upper === null ? [] : [guardBands.upper])];
  return {
    estimate,
    standardUncertainty: u,
    expandedUncertainty,
    guardBand: bands.reduce((wider, band) => (Math.abs(band) > Math.abs(wider) ? band : wider)),
    guardBands,
    acceptance,
    decision: accepted ? "accepted" : "rejected",
    firm: isFirm(tolerance, guardBandMultiplier, guardBands, found),
    probabilityOfConformity: value,
    standardError,
    below,
    above,
    specificRisk: accepted ? { bearer: "consumer", value: below + above } : { bearer: "producer", value },
    measurementCapability: lower === null || upper === null || u === null || u === 0 ? null : (upper - lower) / (4 * u),
    posterior: prior === null || u === null ? null : posteriorOf(prior, found, u, tolerance, accepted),
    globalRisk: prior === null || u === null ? null : riskOf(prior, u, tolerance, acceptance),
  };
}

/** Standard errors within which another draw may decide otherwise. */
const DECISIVE = 2;

/**
 * Whether the decision is beyond the scatter of the trials. The value compared at the lower limit is
 * (1 − |r|)·y + |r|·endpoint; its standard error is at most the sum of those of the two terms.
 */
function isFirm(
  { lower, upper }: Requirement["tolerance"],
  multiplier: number,
  guardBands: GuardBands,
  { estimate, scatter }: Found,
): boolean {
  const weight = Math.abs(multiplier);
  const error = (end: number): number =>
    (weight === 1 ? 0 : Math.abs(1 - weight) * scatter.estimate) + (weight === 0 ? 0 : weight * end);
  const [atLower, atUpper] = multiplier > 0 ? [scatter.low, scatter.high] : [scatter.high, scatter.low];
  const margins = [
    ...(lower === null ? [] : [{ margin: estimate - (lower + guardBands.lower), within: DECISIVE * error(atLower) }]),
    ...(upper === null ? [] : [{ margin: upper - guardBands.upper - estimate, within: DECISIVE * error(atUpper) }]),
  ];
  return (
    margins.every(({ margin, within }) => margin >= 0 && margin >= within) ||
    margins.some(({ margin, within }) => margin < 0 && -margin > within)
  );
}

function posteriorOf(
  prior: NonNullable<Requirement["prior"]>,
  { estimate }: Found,
  u: number,
  tolerance: Requirement["tolerance"],
  accepted: boolean,
): AssessmentRecord["posterior"] {
  const posterior = normalPosterior(prior, estimate, u);
  const { value, below, above } = conformityOfBudget(
    posterior.estimate,
    posterior.standardUncertainty,
    Infinity,
    tolerance,
  );
  return { ...posterior, probabilityOfConformity: value, specificRisk: accepted ? below + above : value };
}

function riskOf(
  prior: NonNullable<Requirement["prior"]>,
  u: number,
  tolerance: Requirement["tolerance"],
  acceptance: AssessmentRecord["acceptance"],
): GlobalRisk {
  // Without measurement uncertainty there is no guard band either, and no item is judged wrongly.
  if (u === 0) return { consumer: 0, producer: 0 };
  return globalRisk(normalDistribution(prior.mean, prior.standardDeviation), u, tolerance, acceptance);
}
