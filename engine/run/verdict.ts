import type { Interval } from "../coverage/coverage-interval.ts";
import type { LinearBudget } from "../linear/budget.ts";
import type { PairedKnown } from "./paired-figures.ts";
import type { PairedFigures, ValidationFigures } from "../record/figures.ts";
import type { LinearRecord, MonteCarloRecord, SecondOrderRecord } from "../record/record.ts";
import { fewestTrials } from "../trials/batch.ts";
import { compareIntervals } from "../validation/compare.ts";
import { decide, timesNeeded } from "../validation/margins.ts";
import type { Prepared } from "../prepared/prepare.ts";

/** What a verdict needs of a budget: the same from a run as from its record. */
type Budget = Pick<LinearBudget, "estimate" | "interval" | "standardUncertainty"> & Pick<LinearRecord, "contributions">;

/** The verdict on a measurand's budget, from its figures alone, so that it can be made again from a record. */
export function verdictOn(
  { study, coverage }: Pick<Prepared, "study" | "coverage">,
  budget: Budget,
  monteCarlo: MonteCarloRecord,
  paired?: PairedKnown | PairedFigures,
): ValidationFigures {
  const interval = monteCarlo.intervals[coverage.interval];
  return compareIntervals(budget, interval, monteCarlo.standardUncertainty, {
    digits: study.significantDigits,
    settled: monteCarlo.settling.settled,
    trials: monteCarlo.trials,
    probability: coverage.probability,
    standardErrors: monteCarlo.standardErrors[coverage.interval],
    varies: monteCarlo.least !== monteCarlo.greatest,
    ...(paired?.kind === "figures"
      ? { paired: { distances: [paired.dLow, paired.dHigh], standardErrors: paired.standardErrors.interval } }
      : {}),
    lastBit: lastBitOf(budget, interval),
  });
}

/** What the paired figures decide, and how many plain trials would. */
export function pairedDecision(
  { numericalTolerance: δ }: Pick<ValidationFigures, "numericalTolerance">,
  { dLow, dHigh, standardErrors }: PairedKnown,
  { trials, probability, standardErrors: plain }: MonteCarloRecord,
): Pick<Extract<PairedFigures, { kind: "figures" }>, "decision" | "trialsNeeded"> {
  const decision = decide([dLow, dHigh], standardErrors.interval, δ);
  if (decision === "undecided") return { decision, trialsNeeded: null };
  const needed = Math.max(fewestTrials(probability), trials * timesNeeded([dLow, dHigh], plain.symmetric, δ));
  return { decision, trialsNeeded: Number(needed.toPrecision(2)) };
}

/** What the last bit stands for, of the largest of the result and of the parts c_i·x_i it is made from. */
export const lastBitOf = ({ contributions, estimate }: Budget, [low, high]: Interval): number =>
  2 ** -52 *
  Math.max(
    Math.abs(estimate),
    Math.abs(low),
    Math.abs(high),
    ...contributions.map((row) => Math.abs(row.sensitivityCoefficient * row.estimate)),
  );

/** How far the budget with its next-order terms lies off the Monte Carlo interval, held against the same δ. */
export function secondOrderVerdict(
  own: Interval,
  interval: Interval,
  δ: number,
): Pick<SecondOrderRecord, "dLow" | "dHigh" | "validated"> {
  const dLow = Math.abs(own[0] - interval[0]);
  const dHigh = Math.abs(own[1] - interval[1]);
  return { dLow, dHigh, validated: dLow <= δ && dHigh <= δ };
}
