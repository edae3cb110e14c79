import { elementary, type Study } from "../../engine/index.ts";
import { normalQuantile, numericalTolerance } from "../../engine/internal.ts";
import type { Predicted } from "./predict.ts";

/** Whether a claim meets its target; undecided where the target lies nearer to it than trials can tell. */
export type TargetStanding = "met" | "missed" | "undecided";

/**
 * @param linear expanded uncertainty of the linear budget, which has no trials: what it misses is missed
 * @param distribution what trials say, or would
 * @param open within which trials cannot tell it from the target, in the same unit
 */
export const standingOf = (linear: number, distribution: number, target: number, open: number): TargetStanding =>
  linear > target
    ? "missed"
    : Math.abs(distribution - target) <= open
      ? "undecided"
      : distribution <= target
        ? "met"
        : "missed";

/** Twice the standard deviation of the mean, as JCGM 101, 7.9.4, takes it. */
const STANDARD_ERRORS = 2;

/**
 * Twice the standard error of an endpoint of the coverage interval of a normal quantity, as a multiple of u:
 * √(q(1 − q)/M)/φ(z_q) with q = (1 + p)/2, that of a sample quantile.
 */
export function leftOpenBy(trials: number, probability: number): number {
  const q = (1 + probability) / 2;
  const z = normalQuantile(q);
  const density = elementary.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
  return (STANDARD_ERRORS * Math.sqrt((q * (1 - q)) / trials)) / density;
}

/**
 * Share of a claim within which a run of a study leaves open what it is: `leftOpenBy` over k of a normal quantity; of an
 * adaptive run the numerical tolerance at which it ends (JCGM 101, 7.9.4), the largest of all points.
 *
 * @param now what the study claims at each point
 * @param probability p
 */
export const marginOf = (
  { trials, significantDigits }: Study,
  now: readonly Predicted[],
  probability: number,
): number =>
  trials === "adaptive"
    ? Math.max(
        ...now.map(({ standardUncertainty, claimed }) =>
          claimed === 0 ? 0 : numericalTolerance(standardUncertainty, significantDigits) / claimed,
        ),
      )
    : leftOpenBy(trials, probability) / normalQuantile((1 + probability) / 2);
