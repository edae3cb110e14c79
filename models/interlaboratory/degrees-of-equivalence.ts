import { covarianceOf, type LaboratoryResult, type ReferenceValue, type ResultCorrelation } from "./reference-value.ts";

/** How far one laboratory is from the reference value, or from another. */
export interface Equivalence {
  readonly difference: number;
  /** Of the difference; 0 if the laboratory alone makes the reference value. */
  readonly standardUncertainty: number;
}

/**
 * Degrees of equivalence D_i = x_i − x_R of all results with the uncertainty of each difference by the covariance of
 * results and weights (Cox 2002, procedure A): u²(D_i) = u_i² − u_R² for a laboratory inside a weighted mean, which is
 * correlated with it, u_i² + u_R² for one outside. The wrong sign turns verdicts around.
 *
 * @param reference with the standard deviation between laboratories, τ, if it is a random-effects value. The effects of all
 *   laboratories then move it, by τ²·Σ w², while a laboratory's own effect is what D estimates and no part of u(D) (derived:
 *   D_i less the effect of i is ε_i less the error of x_R).
 */
export function degreesOfEquivalence(
  results: readonly LaboratoryResult[],
  {
    value,
    weights,
    between = 0,
  }: Pick<ReferenceValue, "value" | "weights"> & { readonly between?: number | undefined },
  correlations: readonly ResultCorrelation[] = [],
): readonly Equivalence[] {
  const V = covarianceOf(results, correlations);
  const ofEffects = between * between * weights.reduce((sum, weight) => sum + weight * weight, 0);
  return results.map((result, i) => {
    // Row of the difference: 1 for the laboratory itself less the weights.
    const row = weights.map((weight, j) => (i === j ? 1 : 0) - weight);
    const variance = row.reduce(
      (sum, a, j) => sum + a * row.reduce((inner, b, k) => inner + b * V[j]![k]!, 0),
      ofEffects,
    );
    return { difference: result.value - value, standardUncertainty: Math.sqrt(Math.max(0, variance)) };
  });
}

/** D_ij = x_i − x_j of two results. */
export function pairEquivalence(
  results: readonly LaboratoryResult[],
  i: number,
  j: number,
  correlations: readonly ResultCorrelation[] = [],
): Equivalence {
  const V = covarianceOf(results, correlations);
  return {
    difference: results[i]!.value - results[j]!.value,
    standardUncertainty: Math.sqrt(Math.max(0, V[i]![i]! + V[j]![j]! - 2 * V[i]![j]!)),
  };
}
