import type { MeasurandFigures, PairedFigures, Rounded, RunFigures } from "../record/figures.ts";
import { symbolOf } from "../record/figures.ts";
import { decimalsFor, toDecimals } from "../record/rounding.ts";

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

/** Most decimals that show a difference from δ, beyond those of δ. */
const MOST_DECIMALS = 12;
/** Most decimals that a difference has beyond those of δ, if these show that the two differ. */
const MORE_DECIMALS = 2;

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
  let decimals = Math.min(Math.max(usual, decimalsFor(error, 1)), usual + MORE_DECIMALS);
  // Figures that are known to differ show it.
  if (decision !== "undecided" && difference !== δ)
    while (toDecimals(difference, decimals) === toDecimals(δ, decimals) && decimals < usual + MOST_DECIMALS)
      decimals += 1;
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
