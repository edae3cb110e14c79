import type { Interval } from "../coverage/coverage-interval.ts";

/**
 * Standard errors of an end by which both ends must lie on one side of δ, and one end alone. Two ends with d = δ lie both
 * beyond two of theirs, or one beyond three, in 0.4 % of runs; one of them lies beyond two in 4.5 %.
 */
const BOTH = 2;
const ALONE = 3;

/** What distances that are known to their standard errors say of d ≤ δ at both ends. */
export type Decision = "validated" | "notValidated" | "undecided";

/** @param standardErrors of the endpoints; where one is 0, its distance is exact */
export function decide(distances: Interval, standardErrors: Interval, δ: number): Decision {
  const margins = marginsOf(distances, standardErrors, δ);
  if (margins.every((margin) => margin < -BOTH)) return "validated";
  return margins.every((margin) => margin > BOTH) || margins.some((margin) => margin > ALONE)
    ? "notValidated"
    : "undecided";
}

/**
 * How many times as many trials would decide, if the distances are what they are.
 *
 * @param standardErrors that the trials made so far leave
 */
export function timesNeeded(distances: Interval, standardErrors: Interval, δ: number): number {
  const margins = marginsOf(distances, standardErrors, δ);
  const square = (x: number): number => x * x;
  if (margins.every((margin) => margin < 0)) return square(BOTH / Math.max(...margins));
  const alone = square(ALONE / Math.max(...margins));
  return margins.every((margin) => margin > 0) ? Math.min(alone, square(BOTH / Math.min(...margins))) : alone;
}

const marginsOf = (distances: Interval, standardErrors: Interval, δ: number): number[] =>
  distances.map((distance, end) => (distance - δ) / standardErrors[end]!);
