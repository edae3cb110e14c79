import type { Correlation } from "../dependence/dependence.ts";
import type { Group } from "../dependence/group.ts";
import { linearisedOf, type Linearised, type Unavailable } from "./linearised.ts";
import { termsOfBudget, type TermsBudget } from "./terms-of-budget.ts";

/** Part of δ within which the endpoints must be known. */
const OF_TOLERANCE = 1 / 1000;

/**
 * The distribution that a linear budget's model has with the stated distributions in place of a normal or a t: that of
 * estimate + Σ c_i·(X_i − x_i).
 *
 * @param tolerance δ: the endpoints are known to a thousandth of it, or the distribution is not given
 * @param probability of the interval
 */
export function linearisedBudget(
  { contributions }: TermsBudget,
  groups: readonly Group[],
  correlations: readonly Correlation[],
  { probability, tolerance }: { readonly probability: number; readonly tolerance: number },
): Linearised | Unavailable {
  const found = termsOfBudget(contributions, groups, correlations);
  if (found.kind === "copula") return { kind: "unavailable", because: "copula", inputs: found.inputs };
  return linearisedOf(found.terms, { probability, tolerance: tolerance * OF_TOLERANCE });
}
