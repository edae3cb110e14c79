import type { LinearRecord, MeasurandRecord, MonteCarloRecord, Problem, ValidationRecord } from "../../engine/index.ts";

/** Trials of a sketch: enough to see what a change does, few enough to follow a slider. */
export const SKETCH_TRIALS = 20_000;

/** What the page asks of the worker. */
export interface SketchQuestion {
  readonly id: number;
  /** A study document; its number of trials is not looked at. */
  readonly study: unknown;
}

/** One measurand of a sketch: the parts of a record that are compared. */
export interface SketchedMeasurand extends Pick<MeasurandRecord, "symbol" | "meaning" | "unit"> {
  readonly linear: Pick<LinearRecord, "estimate" | "standardUncertainty" | "coverageFactor" | "expandedUncertainty" | "interval">;
  readonly monteCarlo: Pick<MonteCarloRecord, "estimate" | "standardUncertainty" | "intervals" | "histogram" | "trials">;
  readonly validation: Pick<ValidationRecord, "validated" | "numericalTolerance" | "coverageFactorNeeded">;
}

/** What the worker answers. */
export type SketchAnswer =
  | { readonly id: number; readonly measurands: Readonly<Record<string, SketchedMeasurand>>; readonly milliseconds: number }
  | { readonly id: number; readonly message: string; readonly problems: readonly Problem[] };
