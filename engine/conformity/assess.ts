import { normalDistribution } from "../distributions/normal.ts";
import type { LinearBudget } from "../linear/budget.ts";
import type { ConformityFigures } from "../record/figures.ts";
import type { MonteCarloRecord } from "../record/record.ts";
import type { Sample } from "../statistics/sample.ts";
import { acceptanceInterval, accepts, ruleName, type RuleName } from "./acceptance.ts";
import type { AssessmentRecord } from "./conformity-record.ts";
import type { Requirement } from "./conformity-statement.ts";
import { globalRisk, type GlobalRisk } from "./global-risk.ts";
import { normalPosterior } from "./posterior.ts";
import { conformityOfBudget, conformityOfSample, type ProbabilityOfConformity } from "./probability-of-conformity.ts";

const RULE_SOURCES: Readonly<Record<RuleName, string>> = {
  "simple acceptance": "JCGM 106:2012, 8.2",
  "guarded acceptance": "JCGM 106:2012, 8.3.2",
  "guarded rejection": "JCGM 106:2012, 8.3.3",
};

/** What is assessed: one measurand as each method found it. */
export interface Assessed {
  readonly linear: LinearBudget;
  readonly monteCarlo: MonteCarloRecord;
  readonly sample: Sample;
  /** The coverage interval that the study works with. */
  readonly interval: "symmetric" | "shortest";
}

/**
 * Assesses one measurand against its requirement by the Monte Carlo distribution and by the linear budget, each with its
 * own estimate, uncertainty and guard band (JCGM 106:2012, clauses 7 to 9).
 */
export function assessConformity(
  requirement: Requirement,
  { linear, monteCarlo, sample, interval }: Assessed,
): ConformityFigures {
  const { tolerance, guardBandMultiplier, prior } = requirement;
  const [low, high] = monteCarlo.intervals[interval];
  const byBudget = assess(requirement, {
    estimate: linear.estimate,
    standardUncertainty: linear.standardUncertainty,
    expandedUncertainty: linear.expandedUncertainty,
    ...conformityOfBudget(linear.estimate, linear.standardUncertainty, linear.effectiveDegreesOfFreedom, tolerance),
    standardError: null,
  });
  const bySample = assess(requirement, {
    // A distribution without a mean has the budget's estimate still.
    estimate: monteCarlo.estimate ?? linear.estimate,
    standardUncertainty: monteCarlo.standardUncertainty,
    expandedUncertainty: (high - low) / 2,
    ...conformityOfSample(sample, tolerance),
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
  readonly standardError: number | null;
}

function assess({ tolerance, guardBandMultiplier, prior }: Requirement, found: Found): AssessmentRecord {
  const { estimate, standardUncertainty: u, expandedUncertainty, value, below, above, standardError } = found;
  const guardBand = guardBandMultiplier === 0 ? 0 : guardBandMultiplier * expandedUncertainty;
  const acceptance = acceptanceInterval(tolerance, guardBand);
  const accepted = accepts(acceptance, estimate);
  const { lower, upper } = tolerance;
  return {
    estimate,
    standardUncertainty: u,
    expandedUncertainty,
    guardBand,
    acceptance,
    decision: accepted ? "accepted" : "rejected",
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
