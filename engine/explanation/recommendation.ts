import type { Prepared } from "../run/prepare.ts";
import type { MeasurandFigures, RecommendationFigures } from "../record/figures.ts";
import { CAUSES } from "./causes.ts";
import type { Cause, CausePart } from "../record/explanation.ts";

/** The recommendation from the verdict and its causes. */
export function recommend(
  prepared: Prepared,
  record: MeasurandFigures,
  parts: Readonly<Record<Cause, CausePart>>,
): RecommendationFigures {
  const { linear, monteCarlo, validation, secondOrder } = record;
  const { interval } = prepared.coverage;
  if (validation.validated) return { action: validation.firm ? "keep" : "draw-more", factor: null, inputs: [] };
  const leading = leadingCause(parts);
  const [low, high] = monteCarlo.intervals[interval];
  const δ = validation.numericalTolerance;
  const k = validation.coverageFactorNeeded;
  // A symmetric interval about the estimate, with another k, is sufficient if the result is symmetric.
  const centred = Math.abs((low + high) / 2 - linear.estimate) <= δ;
  if (leading === "degreesOfFreedom")
    return { action: "gather-readings", factor: null, inputs: parts.degreesOfFreedom.inputs.slice(0, 1) };
  if (leading === "shape" && centred && k !== null)
    return { action: "keep-with-factor", factor: k, inputs: parts.shape.inputs };
  if (secondOrder?.validated) return { action: "add-second-order", factor: null, inputs: parts.curvature.inputs };
  return { action: "report-monte-carlo", factor: null, inputs: parts[leading].inputs };
}

/** The cause with the greatest part of the difference. */
export const leadingCause = (parts: Readonly<Record<Cause, CausePart>>): Cause =>
  CAUSES.toSorted((a, b) => parts[b].share - parts[a].share)[0]!;
