import type { MeasurandFigures, PairedFigures, Rounded, RunFigures } from "../record/figures.ts";
import { symbolOf } from "../record/figures.ts";
import { decimalsFor } from "../record/rounding.ts";

/** What paired trials say of the verdict. */
export type PairedFact =
  | {
      /** They decide as the trials do, otherwise, or not. */
      readonly kind: "stands" | "otherwise" | "undecided";
      readonly decision: "validated" | "notValidated" | "undecided";
      /** The distance of the endpoint that decides, and its standard error. */
      readonly difference: Rounded;
      readonly standardError: Rounded;
      readonly tolerance: Rounded;
      /** How far d and δ are apart. */
      readonly margin: Rounded;
      /** Plain trials that would decide as well, where there were fewer. */
      readonly trialsNeeded: number | null;
    }
  | { readonly kind: "shortest" | "leftOut" | "noLinearUncertainty" | "accuracy" | "fewAtEndpoint" }
  | { readonly kind: "noStandardDeviation" | "copula"; readonly inputs: readonly string[] };

/** Most decimals that a difference has beyond those of δ. */
const MORE_DECIMALS = 4;

/** @returns nothing where nothing varies, which the verdict says */
export function pairedFacts(
  run: Pick<RunFigures, "inputs">,
  { validation, monteCarlo, unit }: Pick<MeasurandFigures, "validation" | "monteCarlo" | "unit">,
  paired: PairedFigures,
): PairedFact[] {
  if (paired.kind === "unavailable") {
    const { because, inputs } = paired;
    if (because === "nothingVaries") return [];
    if (because === "noStandardDeviation" || because === "copula")
      return [{ kind: because, inputs: inputs.map((name) => symbolOf(run, name)) }];
    return [{ kind: because }];
  }
  const { numericalTolerance: δ, validated } = validation;
  const { dLow, dHigh, standardErrors, decision, trialsNeeded } = paired;
  const end = dLow > dHigh ? 0 : 1;
  const difference = Math.max(dLow, dHigh);
  const error = standardErrors.interval[end];
  const usual = decimalsFor(δ, 1) + 1;
  const decimals = Math.min(Math.max(usual, decimalsFor(error, 1)), usual + MORE_DECIMALS);
  const length = (value: number): Rounded => ({ value, decimals, unit });
  const digit = (value: number): Rounded => ({ value, decimals: decimalsFor(value, 1), unit });
  return [
    {
      kind: decision === "undecided" ? decision : (decision === "validated") === validated ? "stands" : "otherwise",
      decision,
      difference: length(difference),
      standardError: digit(error),
      tolerance: length(δ),
      margin: digit(Math.max(Math.abs(difference - δ), error)),
      trialsNeeded: trialsNeeded !== null && trialsNeeded > monteCarlo.trials ? trialsNeeded : null,
    },
  ];
}
