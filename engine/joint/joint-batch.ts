import { symmetricEigen } from "../numerics/symmetric-eigen.ts";
import { coMomentsOf, correlationMatrix, covarianceMatrix, type CoMoments } from "./co-moments.ts";
import { squaredDistances, valueCovering } from "./coverage-region.ts";

/** The joint figures of the measurands from one batch of trials. Plain data, since it moves between threads. */
export interface JointBatch {
  /** The model values in the order of the trials, one array per measurand; of a condensed batch the least and the greatest. */
  readonly columns: readonly Float64Array[];
  readonly coMoments: CoMoments;
  readonly greatestEigenvalue: number;
  /** k_p of the batch's own coverage ellipsoid; `null` if its covariance is singular or the stopping rule ignores it. */
  readonly ellipsoidFactor: number | null;
}

/** @param settling whether the run continues until the joint figures have stabilised too */
export function jointBatch(columns: readonly Float64Array[], probability: number, settling: boolean): JointBatch {
  const coMoments = coMomentsOf(columns);
  const covariance = covarianceMatrix(coMoments);
  const distances = settling ? squaredDistances(coMoments.means, covariance) : null;
  const found = new Float64Array(distances === null ? 0 : columns[0]!.length);
  distances?.(columns, found);
  return {
    columns,
    coMoments,
    greatestEigenvalue: symmetricEigen(correlationMatrix(covariance)).values.at(-1)!,
    ellipsoidFactor: distances === null ? null : Math.sqrt(valueCovering(found, probability)),
  };
}
