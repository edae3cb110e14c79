import type { LinearBudget } from "../linear/budget.ts";
import type { Interval } from "../coverage/coverage-interval.ts";
import type { ValidationFigures } from "../record/figures.ts";
import { numericalTolerance } from "./numerical-tolerance.ts";

/**
 * Compares the linear interval with the Monte Carlo one (JCGM 101, clause 8): d_low = |y − U − y_low|,
 * d_high = |y + U − y_high|, validated if neither exceeds δ.
 *
 * @param context.scatter twice the standard error of an endpoint: a greater distance from δ is not due to the seed
 * @param uncertainty the Monte Carlo standard uncertainty, or `null`: δ comes from the linear u(y) (8.1) unless that
 *   is 0, in which case δ comes from the Monte Carlo result
 */
export function compareIntervals(
  budget: LinearBudget,
  interval: Interval,
  uncertainty: number | null,
  context: { readonly digits: 1 | 2; readonly settled: boolean; readonly scatter: number },
): ValidationFigures {
  const dLow = Math.abs(budget.interval[0] - interval[0]);
  const dHigh = Math.abs(budget.interval[1] - interval[1]);
  const basis = budget.standardUncertainty > 0 ? budget.standardUncertainty : (uncertainty ?? 0);
  const at = (significantDigits: 1 | 2) => {
    const tolerance = numericalTolerance(basis, significantDigits);
    return { significantDigits, numericalTolerance: tolerance, validated: dLow <= tolerance && dHigh <= tolerance };
  };
  const { digits, settled, scatter } = context;
  const chosen = at(digits);
  return {
    ...chosen,
    dLow,
    dHigh,
    settled,
    firm: settled || Math.abs(Math.max(dLow, dHigh) - chosen.numericalTolerance) > scatter,
    atDigits: [at(1), at(2)],
    coverageFactorNeeded:
      budget.standardUncertainty > 0 ? (interval[1] - interval[0]) / 2 / budget.standardUncertainty : null,
  };
}
