import type { MeasurandRecord } from "../../engine/index.ts";
import { standingOf } from "./verdict.ts";

/** The result that a certificate states, decided once for every medium. */
export type ToReport =
  /** The linear budget's, with its own k or, if `fitted`, with that of the result's own distribution. */
  | {
      readonly kind: "linear";
      readonly fitted: boolean;
      readonly coverageFactor: number;
      readonly expandedUncertainty: number;
    }
  /** The coverage interval of the trials. */
  | { readonly kind: "monteCarlo" }
  /** Neither, before what is recommended is done. */
  | { readonly kind: "open" };

/** What follows from the recommendation, or without one, as in a record that explains nothing, from the verdict. */
export function toReport({
  linear: { coverageFactor, expandedUncertainty, standardUncertainty },
  validation,
  explanation,
}: Pick<MeasurandRecord, "linear" | "validation" | "explanation">): ToReport {
  const standing = standingOf(validation);
  const own: ToReport = { kind: "linear", fitted: false, coverageFactor, expandedUncertainty };
  if (standing === "nothingVaries") return { kind: "open" };
  if (explanation === null) return standing === "validated" ? own : { kind: "monteCarlo" };
  const { action, factor } = explanation.recommendation;
  switch (action) {
    case "keep":
      return own;
    case "keep-with-factor":
      return {
        kind: "linear",
        fitted: true,
        coverageFactor: factor!,
        expandedUncertainty: factor! * standardUncertainty,
      };
    case "state-deviation":
    case "state-doubtful-limits":
      return { kind: "open" };
    case "add-second-order":
    case "report-monte-carlo":
    case "gather-readings":
    case "know-better":
    case "draw-more":
      return { kind: "monteCarlo" };
  }
}
