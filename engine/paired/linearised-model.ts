import { weightedSumOf, type WeightedSum } from "../random/weighted-sum.ts";
import type { InputKnowledge } from "../distributions/distribution.ts";

/**
 * The linearised model of one measurand about the inputs' means, in units of its linear standard uncertainty:
 * z = Σ c_i·(x_i − E X_i)/u(y), whose mean is 0.
 */
export interface LinearisedModel {
  /** c_i/u(y) by input, in the model's order. */
  readonly coefficients: readonly number[];
  /** E X_i. */
  readonly means: readonly number[];
  /** u(y) of the linear budget. */
  readonly unit: number;
}

/** What is needed of a linear budget. */
interface Budget {
  readonly standardUncertainty: number;
  readonly contributions: readonly { readonly input: string; readonly sensitivityCoefficient: number }[];
}

/** @returns `null` if the model has no linear part, or an input no mean or no standard deviation */
export function linearisedModel(
  { contributions, standardUncertainty }: Budget,
  knowledge: Readonly<Record<string, InputKnowledge>>,
): LinearisedModel | null {
  if (!(standardUncertainty > 0)) return null;
  const acting = contributions.filter(({ sensitivityCoefficient }) => sensitivityCoefficient !== 0);
  const finite = acting.every(({ input }) => {
    const { mean, standardDeviation } = knowledge[input]!.distribution;
    return mean !== null && standardDeviation !== null && Number.isFinite(standardDeviation);
  });
  if (!finite) return null;
  const coefficients = contributions.map((row) => row.sensitivityCoefficient / standardUncertainty);
  if (!coefficients.every(Number.isFinite)) return null;
  return {
    coefficients,
    means: contributions.map(({ input }, i) => (coefficients[i] === 0 ? 0 : knowledge[input]!.distribution.mean!)),
    unit: standardUncertainty,
  };
}

/** The sum of one linearised model. */
export const linearSumOf = ({ coefficients, means }: LinearisedModel): WeightedSum =>
  weightedSumOf(
    coefficients
      .map((coefficient, column) => ({ column, coefficient, mean: means[column]! }))
      .filter(({ coefficient }) => coefficient !== 0),
  );
