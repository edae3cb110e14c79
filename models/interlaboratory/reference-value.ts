import { refuse } from "../../engine/index.ts";
import { upperGamma } from "../../engine/internal.ts";
import { leastSquares } from "../platinum/least-squares.ts";

/** What one laboratory reports. */
export interface LaboratoryResult {
  readonly name: string;
  readonly value: number;
  readonly standardUncertainty: number;
  /** Whether it counts in the reference value. */
  readonly inReference: boolean;
}

/** Correlation coefficient of two laboratories' results. */
export interface ResultCorrelation {
  readonly between: readonly [string, string];
  readonly coefficient: number;
}

/** A value that several results agree on, with the weights it was made with. */
export interface ReferenceValue {
  readonly value: number;
  readonly standardUncertainty: number;
  /** One for each result; 0 for one that does not count. */
  readonly weights: readonly number[];
}

/** The weighted mean and whether the results agree with it. */
export interface WeightedMean extends ReferenceValue {
  /** Σ (x_i − x_R)²/u²(x_i), with correlations rᵀV⁻¹r, over the results that count. */
  readonly chiSquare: number;
  readonly degreesOfFreedom: number;
  /** Probability of a χ² at least as great if all stated uncertainties hold. */
  readonly probability: number;
  /** √(χ²/ν): above 1 the results scatter more than their uncertainties allow. */
  readonly birgeRatio: number;
  /** Standard uncertainty times the Birge ratio: as the scatter shows it. */
  readonly externalUncertainty: number;
}

/** Covariance of the results. @throws {InputError} a correlation of a laboratory that does not exist */
export function covarianceOf(
  results: readonly LaboratoryResult[],
  correlations: readonly ResultCorrelation[],
): number[][] {
  const V = results.map(({ standardUncertainty: u }, i) => results.map((_, j) => (i === j ? u * u : 0)));
  correlations.forEach(({ between, coefficient }, k) => {
    const [i, j] = between.map((name) => results.findIndex((result) => result.name === name)) as [number, number];
    if (i < 0 || j < 0 || i === j)
      refuse(
        `correlations.${k}.between`,
        between,
        `two different laboratories of ${results.map(({ name }) => name).join(", ")}`,
      );
    const term = coefficient * results[i]!.standardUncertainty * results[j]!.standardUncertainty;
    V[i]![j] = term;
    V[j]![i] = term;
  });
  return V;
}

/**
 * The weighted mean of the results that count, by least squares with their covariance, and the χ² test of consistency:
 * procedure A of M. G. Cox, Metrologia 39 (2002) 589–595.
 *
 * @throws {InputError} fewer than two results that count, or a covariance that is not positive definite
 */
export function weightedMean(
  results: readonly LaboratoryResult[],
  correlations: readonly ResultCorrelation[] = [],
): WeightedMean {
  const members = results.map((_, i) => i).filter((i) => results[i]!.inReference);
  if (members.length < 2)
    refuse("laboratories", `${members.length} that count`, "two or more that count in the reference value");
  const V = covarianceOf(results, correlations);
  const part = members.map((i) => members.map((j) => V[i]![j]!));
  // Nearly equal values would lose their last digits in χ².
  const shift = results[members[0]!]!.value;
  const fit = leastSquares(
    members.map(() => [1]),
    members.map((i) => results[i]!.value - shift),
    { covariance: part },
  );
  const { chiSquare, degreesOfFreedom } = fit;
  const standardUncertainty = Math.sqrt(fit.covariance[0]![0]!);
  const birgeRatio = Math.sqrt(chiSquare / degreesOfFreedom);
  const weights = results.map(() => 0);
  // The mean follows its observations by its leverages, which are its weights.
  members.forEach((i, k) => (weights[i] = fit.leverage[k]!));
  return {
    value: shift + fit.parameters[0]!,
    standardUncertainty,
    weights,
    chiSquare,
    degreesOfFreedom,
    probability: chiSquareAbove(chiSquare, degreesOfFreedom),
    birgeRatio,
    externalUncertainty: standardUncertainty * birgeRatio,
  };
}

/** Probability that a χ² with ν degrees of freedom exceeds a value: a gamma distribution of shape ν/2 and scale 2. */
export const chiSquareAbove = (value: number, degreesOfFreedom: number): number =>
  upperGamma(degreesOfFreedom / 2, value / 2);
