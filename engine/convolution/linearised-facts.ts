import { symbolOf, type LinearisedFigures, type MeasurandFigures, type RunFigures } from "../record/figures.ts";

/** What the linearised model with the stated distributions says. */
export type LinearisedFact =
  | {
      readonly kind: "factor";
      readonly symbol: string;
      readonly factor: number;
      /** The factor that the budget takes. */
      readonly linearFactor: number;
      readonly probability: number;
    }
  /** The budget has no u(y) that a factor could multiply. */
  | { readonly kind: "noFactor"; readonly symbol: string }
  /** The input whose distribution moves the factor most, and the factor with a normal in its place. */
  | { readonly kind: "decisive"; readonly inputs: readonly string[]; readonly factor: number }
  | { readonly kind: "nothingVaries" }
  | { readonly kind: "noStandardDeviation" | "copula"; readonly inputs: readonly string[] }
  | { readonly kind: "accuracy" };

/** A factor is printed with two decimals. */
const VISIBLE = 0.005;

export function linearisedFacts(
  run: Pick<RunFigures, "inputs" | "coverage">,
  { symbol, linear }: Pick<MeasurandFigures, "symbol" | "linear">,
  linearised: LinearisedFigures,
): LinearisedFact[] {
  const symbols = (inputs: readonly string[]): string[] => inputs.map((name) => symbolOf(run, name));
  if (linearised.kind === "unavailable") {
    const { because, inputs } = linearised;
    return because === "noStandardDeviation" || because === "copula"
      ? [{ kind: because, inputs: symbols(inputs) }]
      : [{ kind: because }];
  }
  const { coverageFactor: factor, decisive } = linearised;
  if (factor === null) return [{ kind: "noFactor", symbol }];
  return [
    { kind: "factor", symbol, factor, linearFactor: linear.coverageFactor, probability: run.coverage.probability },
    ...(decisive === null || Math.abs(decisive.coverageFactor - factor) < VISIBLE
      ? []
      : [{ kind: "decisive" as const, inputs: symbols(decisive.inputs), factor: decisive.coverageFactor }]),
  ];
}
