import type { Doubt } from "../record/validation.ts";
import type { LinearBudget } from "../linear/budget.ts";
import type { Interval } from "../coverage/coverage-interval.ts";
import type { ValidationFigures } from "../record/figures.ts";
import { decide } from "./margins.ts";
import { numericalTolerance } from "./numerical-tolerance.ts";

/** Fewest trials beyond either end, without which it hangs on a handful of them. */
const FEWEST_BEYOND = 50;
/** Rounding of a double may be this part of δ. */
const ROUNDING = 0.1;

export interface Comparing {
  readonly digits: 1 | 2;
  /** Whether the figures settled to δ/5. */
  readonly settled: boolean;
  readonly trials: number;
  readonly probability: number;
  /** Standard errors of the compared ends; `null` where they are not known. */
  readonly standardErrors: readonly [number, number] | null;
  /** Whether any two trials differ. */
  readonly varies: boolean;
  /** The distances that paired trials give, and their standard errors, where there are any. */
  readonly paired?: { readonly distances: Interval; readonly standardErrors: Interval };
  /** What the last bit of a double stands for, at the largest of the result and the parts it is made from. */
  readonly lastBit: number;
}

/**
 * Compares the linear interval with the Monte Carlo one (JCGM 101, clause 8): d_low = |y − U − y_low|,
 * d_high = |y + U − y_high|, validated if neither exceeds δ.
 *
 * A budget that finds no uncertainty where the trials scatter is not validated, however small the scatter.
 *
 * @param uncertainty the Monte Carlo standard uncertainty, or `null`: δ comes from the linear u(y) (8.1) unless that
 *   is 0, in which case δ comes from the Monte Carlo result
 */
export function compareIntervals(
  budget: Pick<LinearBudget, "interval" | "standardUncertainty">,
  interval: Interval,
  uncertainty: number | null,
  context: Comparing,
): ValidationFigures {
  const dLow = Math.abs(budget.interval[0] - interval[0]);
  const dHigh = Math.abs(budget.interval[1] - interval[1]);
  const { standardUncertainty: linear } = budget;
  const { varies } = context;
  const basis = linear > 0 ? linear : (uncertainty ?? 0);
  const at = (significantDigits: 1 | 2) => {
    const tolerance = numericalTolerance(basis, significantDigits);
    const validated = (linear > 0 || !varies) && dLow <= tolerance && dHigh <= tolerance;
    return { significantDigits, numericalTolerance: tolerance, validated };
  };
  const chosen = at(context.digits);
  const nothingVaries = linear === 0 && !varies;
  // Of a budget without any uncertainty the trials need not be asked: they scatter, or they do not.
  const doubts = linear === 0 ? [] : doubtsAbout([dLow, dHigh], chosen.numericalTolerance, chosen.validated, context);
  return {
    ...chosen,
    dLow,
    dHigh,
    settled: context.settled,
    firm: doubts.length === 0,
    ...(doubts.length === 0 ? {} : { doubts }),
    ...(nothingVaries ? { nothingVaries } : {}),
    atDigits: [at(1), at(2)],
    coverageFactorNeeded: linear > 0 ? (interval[1] / 2 - interval[0] / 2) / linear : null,
  };
}

/** What keeps the trials from deciding between d ≤ δ at both ends and d > δ at one. */
function doubtsAbout(
  distances: Interval,
  δ: number,
  validated: boolean,
  { standardErrors, paired, trials, probability, lastBit }: Comparing,
): Doubt[] {
  const doubts: Doubt[] = [];
  const known = paired ?? (standardErrors === null ? null : { distances, standardErrors });
  if (known === null) doubts.push("scatterUnknown");
  else if (decide(known.distances, known.standardErrors, δ) !== (validated ? "validated" : "notValidated"))
    doubts.push("scatter");
  // A little slack, as for the size of a batch: 100/(1 − 0.95) is 1999.999… or 2000.000… in binary.
  if ((trials * (1 - probability)) / 2 < FEWEST_BEYOND - 1e-6) doubts.push("fewTrials");
  if (lastBit > ROUNDING * δ) doubts.push("rounding");
  return doubts;
}
