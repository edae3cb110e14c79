import type { Linearised, Unavailable } from "../convolution/linearised.ts";
import { linearisedBudget } from "../convolution/linearised-budget.ts";
import type { LinearBudget } from "../linear/budget.ts";
import { numericalTolerance } from "../validation/numerical-tolerance.ts";
import type { Prepared } from "./prepare.ts";

const known = new WeakMap<LinearBudget, Linearised | Unavailable>();

/** The distribution of a measurand's linearised model, to δ/1000 at its endpoints; computed once a run. */
export function exactLinearised(
  { linear, source, correlations, coverage, study }: Prepared,
  name: string,
): Linearised | Unavailable {
  const budget = linear[name]!;
  const found =
    known.get(budget) ??
    linearisedBudget(budget, source.groups, correlations, {
      probability: coverage.probability,
      tolerance: numericalTolerance(budget.standardUncertainty, study.significantDigits),
    });
  known.set(budget, found);
  return found;
}
