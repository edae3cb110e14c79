import { symbolOf, type ExplanationFigures, type MeasurandFigures, type Symbols } from "../record/figures.ts";
import { leadingCause } from "./recommendation.ts";

/** What to do with the result. */
export type RecommendationFact =
  | { readonly kind: "keep"; readonly factor: number }
  | { readonly kind: "drawMore" }
  | {
      readonly kind: "gatherReadings";
      /** The input with too few readings; `null` if no single one stands out. */
      readonly input: { readonly symbol: string; readonly degreesOfFreedom: number | null } | null;
    }
  | { readonly kind: "keepWithFactor"; readonly factor: number; readonly linearFactor: number }
  | { readonly kind: "addSecondOrder"; readonly symbols: readonly string[] }
  | { readonly kind: "reportMonteCarlo"; readonly because: "curvature" | "asymmetry" };

const MOST_INPUTS = 4;

/** What follows for one measurand. */
export function recommendationFacts(
  run: Symbols,
  { linear }: MeasurandFigures,
  { recommendation, parts }: Pick<ExplanationFigures, "recommendation" | "parts">,
): RecommendationFact[] {
  const { action, factor, inputs } = recommendation;
  switch (action) {
    case "keep":
      return [{ kind: "keep", factor: linear.coverageFactor }];
    case "draw-more":
      return [{ kind: "drawMore" }];
    case "gather-readings": {
      const name = inputs[0];
      if (name === undefined) return [{ kind: "gatherReadings", input: null }];
      const row = linear.contributions.find(({ input }) => input === name);
      const degreesOfFreedom = row?.degreesOfFreedom ?? null;
      return [{ kind: "gatherReadings", input: { symbol: symbolOf(run, name), degreesOfFreedom } }];
    }
    case "keep-with-factor":
      return [{ kind: "keepWithFactor", factor: factor!, linearFactor: linear.coverageFactor }];
    case "add-second-order":
      return [{ kind: "addSecondOrder", symbols: inputs.slice(0, MOST_INPUTS).map((name) => symbolOf(run, name)) }];
    case "report-monte-carlo":
      return [{ kind: "reportMonteCarlo", because: leadingCause(parts) === "curvature" ? "curvature" : "asymmetry" }];
  }
}
