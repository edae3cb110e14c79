import type { Linearised, Unavailable } from "../convolution/linearised.ts";
import type { Interval } from "../coverage/coverage-interval.ts";
import { hypot } from "../elementary/index.ts";
import type { LinearBudget } from "../linear/budget.ts";
import type { PairedFigures } from "../record/paired.ts";
import type { PairedEstimates } from "../paired/paired-estimates.ts";

/** The paired figures as a record has them, without what they decide. */
export type PairedKnown = Omit<Extract<PairedFigures, { kind: "figures" }>, "decision" | "trialsNeeded">;

/** Roundings that add up in an endpoint and its distance. */
const ROUNDINGS = 4;

/**
 * The paired figures of a measurand.
 *
 * @param found the distribution of the linearised model, or why it is not to be had
 * @param estimates the paired estimates by that distribution; `null` where they cannot be made
 * @param rounding what the measurand's values are rounded by
 */
export function pairedFigures(
  budget: Pick<LinearBudget, "interval">,
  found: Linearised | Unavailable,
  estimates: PairedEstimates | null,
  rounding: number,
): PairedKnown | Extract<PairedFigures, { kind: "unavailable" }> {
  if (found.kind === "unavailable") return { kind: "unavailable", because: found.because, inputs: found.inputs };
  if (estimates === null) return { kind: "unavailable", because: "fewAtEndpoint", inputs: [] };
  const { estimate, standardUncertainty, low, high } = estimates;
  const interval: Interval = [low.value, high.value];
  const error = (end: 0 | 1): number =>
    hypot(hypot([low, high][end]!.standardError, found.error[end]), ROUNDINGS * rounding);
  return {
    kind: "figures",
    estimate: estimate.value,
    standardUncertainty: standardUncertainty?.value ?? null,
    interval,
    standardErrors: {
      estimate: estimate.standardError,
      standardUncertainty: standardUncertainty?.standardError ?? null,
      interval: [error(0), error(1)],
    },
    dLow: Math.abs(budget.interval[0] - interval[0]),
    dHigh: Math.abs(budget.interval[1] - interval[1]),
  };
}
