import type { Linearised, Unavailable } from "../convolution/linearised.ts";
import type { Interval } from "../coverage/coverage-interval.ts";
import { hypot } from "../elementary/index.ts";
import type { LinearBudget } from "../linear/budget.ts";
import type { PairedFigures } from "../record/paired.ts";
import type { PairedEstimates } from "./paired-estimates.ts";

/** The paired figures as a record has them, without what they decide. */
export type PairedKnown = Omit<Extract<PairedFigures, { kind: "figures" }>, "decision" | "trialsNeeded">;

/**
 * The paired figures of a measurand.
 *
 * @param found the distribution of the linearised model, or why it is not to be had
 * @param estimate the paired estimates by that distribution; `null` where they cannot be made
 */
export function pairedFigures(
  budget: Pick<LinearBudget, "interval">,
  found: Linearised | Unavailable,
  estimates: PairedEstimates | null,
): PairedKnown | Extract<PairedFigures, { kind: "unavailable" }> {
  if (found.kind === "unavailable") return { kind: "unavailable", because: found.because, inputs: found.inputs };
  if (estimates === null) return { kind: "unavailable", because: "fewAtEndpoint", inputs: [] };
  const { estimate, standardUncertainty, low, high } = estimates;
  const interval: Interval = [low.value, high.value];
  return {
    kind: "figures",
    estimate: estimate.value,
    standardUncertainty: standardUncertainty?.value ?? null,
    interval,
    standardErrors: {
      estimate: estimate.standardError,
      standardUncertainty: standardUncertainty?.standardError ?? null,
      interval: [hypot(low.standardError, found.error[0]), hypot(high.standardError, found.error[1])],
    },
    dLow: Math.abs(budget.interval[0] - interval[0]),
    dHigh: Math.abs(budget.interval[1] - interval[1]),
  };
}
