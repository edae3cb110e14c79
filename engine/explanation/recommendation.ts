import type { Prepared } from "../prepared/prepare.ts";
import type { MeasurandFigures, RecommendationFigures } from "../record/figures.ts";
import { CAUSES } from "./causes.ts";
import type { Cause, CausePart } from "../record/explanation.ts";

/** The recommendation from the verdict and its causes. */
export function recommend(
  prepared: Pick<Prepared, "coverage" | "study">,
  record: MeasurandFigures,
  parts: Readonly<Record<Cause, CausePart>>,
): RecommendationFigures {
  const { linear, monteCarlo, validation, secondOrder } = record;
  const { interval } = prepared.coverage;
  if (!validation.firm) {
    const action = validation.doubts?.includes("rounding") === true ? "state-deviation" : "draw-more";
    return { action, factor: null, inputs: [] };
  }
  if (validation.validated) return { action: "keep", factor: null, inputs: [] };
  const leading = leadingCause(parts);
  const [low, high] = monteCarlo.intervals[interval];
  const δ = validation.numericalTolerance;
  const k = validation.coverageFactorNeeded;
  // A symmetric interval about the estimate, with another k, is sufficient if the result is symmetric.
  const centred = Math.abs((low + high) / 2 - linear.estimate) <= δ;
  if (leading === "degreesOfFreedom") return moreDegreesOfFreedom(prepared, record, parts.degreesOfFreedom);
  if (leading === "shape" && centred && k !== null)
    return { action: "keep-with-factor", factor: k, inputs: parts.shape.inputs };
  if (secondOrder?.validated && parts.curvature.inputs.length > 0)
    return { action: "add-second-order", factor: null, inputs: parts.curvature.inputs };
  return { action: "report-monte-carlo", factor: null, inputs: parts[leading].inputs };
}

/** Inputs that are drawn from a t with their degrees of freedom; others bring them to the budget alone. */
const drawnFromT = ({ study }: Pick<Prepared, "study">, input: string): boolean =>
  ["t", "readings"].includes(study.inputs[input]!.distribution);

/**
 * What follows from few degrees of freedom: those of limits or of resampled data count in the budget's k and nowhere
 * else (JCGM 100, G.4.2), those of a t in both; and only an evaluation of type A improves by further readings.
 */
function moreDegreesOfFreedom(
  prepared: Pick<Prepared, "study">,
  { linear }: MeasurandFigures,
  { shapley: [low, high], inputs }: CausePart,
): RecommendationFigures {
  const drawn = inputs.filter((input) => drawnFromT(prepared, input));
  const others = inputs.filter((input) => !drawnFromT(prepared, input));
  if (others.length > 0 && (high - low < 0 || drawn.length === 0))
    return { action: "state-doubtful-limits", factor: null, inputs: others };
  const [first] = drawn;
  if (first === undefined) return { action: "report-monte-carlo", factor: null, inputs: [] };
  const { evaluation } = linear.contributions.find(({ input }) => input === first)!;
  return { action: evaluation === "A" ? "gather-readings" : "know-better", factor: null, inputs: [first] };
}

/** The cause with the greatest part of the difference. */
export const leadingCause = (parts: Readonly<Record<Cause, CausePart>>): Cause =>
  CAUSES.toSorted((a, b) => parts[b].share - parts[a].share)[0]!;
