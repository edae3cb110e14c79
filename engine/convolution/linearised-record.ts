import type { Correlation } from "../dependence/dependence.ts";
import type { Group } from "../dependence/group.ts";
import type { LinearisedFigures } from "../record/linearised.ts";
import { coverageFactorOf } from "./coverage-factor.ts";
import { linearisedBudget } from "./linearised-budget.ts";
import type { Linearised, Unavailable } from "./linearised.ts";
import type { TermsBudget } from "./terms-of-budget.ts";
import { oneSwapped } from "./one-swapped.ts";
import { shortestOf } from "./sum-distribution.ts";

/** Points of the curve, and how many standard uncertainties of the budget it reaches: as the budget's own curve. */
const CURVE_POINTS = 121;
const CURVE_REACH = 4.5;

/**
 * The linearised model with the stated distributions, as a record has it.
 *
 * @param tolerance δ of the comparison; endpoints are known to a thousandth of it
 * @param advice whether the decisive input is looked for, which costs a convolution for each input
 */
export function linearisedRecord(
  budget: TermsBudget,
  groups: readonly Group[],
  correlations: readonly Correlation[],
  { probability, tolerance }: { readonly probability: number; readonly tolerance: number },
  advice = true,
): LinearisedFigures {
  const found = linearisedBudget(budget, groups, correlations, { probability, tolerance });
  return linearisedFigures(budget, found, probability, advice);
}

/** The same of a distribution that is known already, or of why it is not to be had. */
export function linearisedFigures(
  budget: TermsBudget,
  found: Linearised | Unavailable,
  probability: number,
  advice = true,
): LinearisedFigures {
  if (found.kind === "unavailable") {
    const { kind, because, inputs } = found;
    return { kind, because, inputs, ...(because === "accuracy" ? { error: found.reached } : {}) };
  }
  const { distribution } = found;
  const { estimate, standardUncertainty: u } = budget;
  const placed = ([low, high]: readonly [number, number]): [number, number] => [estimate + low, estimate + high];
  return {
    kind: "distribution",
    estimate: estimate + distribution.mean,
    standardUncertainty: distribution.standardDeviation,
    intervals: {
      symmetric: placed(found.interval),
      shortest: placed(shortestOf(distribution, probability)),
    },
    error: found.error,
    coverageFactor: u === 0 ? null : coverageFactorOf(distribution, u, probability),
    decisive: u === 0 || !advice ? null : decisiveOf(found, u, probability),
    cells: found.cells,
    curve: distribution.discrete
      ? []
      : Array.from({ length: CURVE_POINTS }, (_, i) => {
          const d = u * CURVE_REACH * ((2 * i) / (CURVE_POINTS - 1) - 1);
          return [estimate + d, distribution.density(d)] as const;
        }),
  };
}

/** The term whose swap for its normal twin moves the factor most. */
function decisiveOf(
  found: Linearised,
  u: number,
  probability: number,
): { inputs: readonly string[]; coverageFactor: number } | null {
  const { terms, distribution } = found;
  const factor = coverageFactorOf(distribution, u, probability);
  let most: { inputs: readonly string[]; coverageFactor: number } | null = null;
  let moved = -1;
  terms.forEach(({ inputs, distribution: own }, place) => {
    if (own.normal === true) return;
    const { coverageFactor } = oneSwapped(found, place, u, probability);
    if (Math.abs(coverageFactor - factor) <= moved) return;
    moved = Math.abs(coverageFactor - factor);
    most = { inputs, coverageFactor };
  });
  return most;
}
