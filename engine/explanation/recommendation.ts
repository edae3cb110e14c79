import type { Prepared } from "../run/prepare.ts";
import type { MeasurandRecord } from "../record/record.ts";
import { CAUSES, type Cause, type CausePart, type Recommendation } from "./explanation-record.ts";
import { joined } from "../sentences/explanation.ts";

/** What follows from the verdict and its causes. */
export function recommend(
  prepared: Prepared,
  record: MeasurandRecord,
  parts: Readonly<Record<Cause, CausePart>>,
): Recommendation {
  const { linear, monteCarlo, validation, secondOrder } = record;
  const { interval } = prepared.coverage;
  if (validation.validated && validation.firm) {
    return {
      action: "keep",
      factor: null,
      inputs: [],
      sentence: `Keep the linear budget with k = ${linear.coverageFactor.toFixed(2)}.`,
    };
  }
  if (validation.validated) {
    return {
      action: "draw-more",
      factor: null,
      inputs: [],
      sentence: "Keep the linear budget, after a run with more trials (or an adaptive one) has confirmed it.",
    };
  }
  const leading = CAUSES.toSorted((a, b) => parts[b].share - parts[a].share)[0]!;
  const [low, high] = monteCarlo.intervals[interval];
  const δ = validation.numericalTolerance;
  const k = validation.coverageFactorNeeded;
  // A symmetric interval about the estimate, with another k, does for a result that is itself symmetric.
  const centred = Math.abs((low + high) / 2 - linear.estimate) <= δ;
  const report = "Report the Monte Carlo interval in place of the linear one";
  if (leading === "degreesOfFreedom") {
    const inputs = parts.degreesOfFreedom.inputs.slice(0, 1);
    const row = linear.contributions.find(({ input }) => input === inputs[0]);
    const more = row === undefined ? "" : ` (now ν = ${Number(row.degreesOfFreedom!.toPrecision(3))})`;
    return {
      action: "gather-readings",
      factor: null,
      inputs,
      sentence: `Gather more readings of ${joined(inputs)}${more}; until then report the Monte Carlo interval, since a linear budget does not know how uncertain so small a sample leaves the spread.`,
    };
  }
  if (leading === "shape" && centred && k !== null) {
    return {
      action: "keep-with-factor",
      factor: k,
      inputs: parts.shape.inputs,
      sentence: `Keep the linear budget with k = ${k.toFixed(2)} in place of ${linear.coverageFactor.toFixed(2)}: the result is symmetric, and this factor holds the probability asked for.`,
    };
  }
  if (secondOrder?.validated) {
    return {
      action: "add-second-order",
      factor: null,
      inputs: parts.curvature.inputs,
      sentence: `Add the second-order terms of ${joined(parts.curvature.inputs.slice(0, 4))} to the budget, which is then validated, or report the Monte Carlo interval.`,
    };
  }
  return {
    action: "report-monte-carlo",
    factor: null,
    inputs: parts[leading].inputs,
    sentence: `${report}: ${leading === "curvature" ? "no factor k mends a model that bends" : "the result is not symmetric about the estimate"}.`,
  };
}
