import { normalQuantile } from "../numerics/standard-normal.ts";
import { degreesOfFreedomOf, symbolOf, type ExplanationFigures } from "../record/figures.ts";
import type { MeasurandFigures, RunFigures } from "../record/figures.ts";
import { leadingCause } from "./recommendation.ts";

/** What to do with the result. */
export type RecommendationFact =
  | { readonly kind: "keep"; readonly factor: number }
  /** Neither method finds any uncertainty. */
  | { readonly kind: "nothingVaries" }
  | { readonly kind: "drawMore" }
  | { readonly kind: "stateDeviation" }
  /** The degrees of freedom are the reliability of stated limits, or of resampled data; k is that of a normal. */
  | {
      readonly kind: "stateDoubtfulLimits" | "doubtfulSample";
      readonly inputs: readonly { readonly symbol: string; readonly degreesOfFreedom: number }[];
      readonly factor: number;
    }
  /** The degrees of freedom are those of a stated uncertainty, such as a certificate's. */
  | {
      readonly kind: "knowBetter";
      readonly input: { readonly symbol: string; readonly degreesOfFreedom: number | null };
    }
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
  run: Pick<RunFigures, "inputs" | "study" | "coverage">,
  { linear, validation }: MeasurandFigures,
  { recommendation, parts }: Pick<ExplanationFigures, "recommendation" | "parts">,
): RecommendationFact[] {
  const { action, factor, inputs } = recommendation;
  switch (action) {
    case "keep":
      if (validation.nothingVaries) return [{ kind: "nothingVaries" }];
      return [{ kind: "keep", factor: linear.coverageFactor }];
    case "draw-more":
      return [{ kind: "drawMore" }];
    case "state-deviation":
      return [{ kind: "stateDeviation" }];
    case "state-doubtful-limits": {
      const isSample = (name: string): boolean => run.study.inputs[name]!.distribution === "sample";
      const alike = inputs.filter((name) => isSample(name) === isSample(inputs[0]!));
      return [
        {
          kind: isSample(inputs[0]!) ? "doubtfulSample" : "stateDoubtfulLimits",
          inputs: alike.slice(0, MOST_INPUTS).map((name) => ({
            symbol: symbolOf(run, name),
            degreesOfFreedom: degreesOfFreedomOf(run, linear, name)!,
          })),
          factor: normalQuantile((1 + run.coverage.probability) / 2),
        },
      ];
    }
    case "know-better": {
      const name = inputs[0]!;
      const degreesOfFreedom = degreesOfFreedomOf(run, linear, name);
      return [{ kind: "knowBetter", input: { symbol: symbolOf(run, name), degreesOfFreedom } }];
    }
    case "gather-readings": {
      const name = inputs[0];
      if (name === undefined) return [{ kind: "gatherReadings", input: null }];
      const degreesOfFreedom = degreesOfFreedomOf(run, linear, name);
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
