import { symmetricEigen } from "../matrix/symmetric-eigen.ts";
import { coMomentsOf, correlationMatrix, covarianceMatrix, type CoMoments } from "./co-moments.ts";
import { squaredDistances, valueCovering } from "./coverage-region.ts";

/** What a batch of trials says of the measurands together. Plain data: it moves between threads. */
export interface JointBatch {
  /** The model values in the order of the trials, one array a measurand. */
  readonly columns: readonly Float64Array[];
  readonly coMoments: CoMoments;
  readonly greatestEigenvalue: number;
  /** k_p of the batch's own coverage ellipsoid; `null` where its covariance is singular. */
  readonly ellipsoidFactor: number | null;
}

export function jointBatch(columns: readonly Float64Array[], probability: number): JointBatch {
  const coMoments = coMomentsOf(columns);
  const covariance = covarianceMatrix(coMoments);
  const distances = squaredDistances(columns, coMoments.means, covariance);
  return {
    columns,
    coMoments,
    greatestEigenvalue: symmetricEigen(correlationMatrix(covariance)).values.at(-1)!,
    ellipsoidFactor: distances === null ? null : Math.sqrt(valueCovering(distances, probability)),
  };
}
