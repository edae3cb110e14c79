import type {
  LinearRecord,
  MeasurandRecord,
  MonteCarloRecord,
  Problem,
  ValidationRecord,
} from "../../../engine/index.ts";
import type { LinearisedFigures } from "../../../engine/internal.ts";

/** Trials of a preview's first answer: enough to see what a change does, few enough to follow a slider. */
export const FIRST_TRIALS = 20_000;
/** Trials it is refined to when the reader rests. */
export const REFINED_TRIALS = 200_000;

/** What the page asks of the worker. A newer question takes the place of an older one, answered or not. */
export interface PreviewQuestion {
  readonly id: number;
  /** The study as stated; its number of trials is not used. */
  readonly stated: unknown;
  /** The same with a change made, or `null` if nothing is changed. */
  readonly changed: unknown;
  /** Studies with changes that were kept, to stand beside it: they are computed, and drawn last. */
  readonly others: readonly unknown[];
}

/** One measurand of a preview: the parts of a record that are compared. */
export interface PreviewedMeasurand extends Pick<MeasurandRecord, "symbol" | "meaning" | "unit"> {
  readonly linear: Pick<
    LinearRecord,
    "estimate" | "standardUncertainty" | "coverageFactor" | "expandedUncertainty" | "interval"
  >;
  readonly monteCarlo: Pick<
    MonteCarloRecord,
    "estimate" | "standardUncertainty" | "intervals" | "histogram" | "trials"
  >;
  readonly validation: Pick<
    ValidationRecord,
    "validated" | "firm" | "nothingVaries" | "numericalTolerance" | "coverageFactorNeeded"
  >;
}

/** The measurands of a preview by name. */
export type Preview = Readonly<Record<string, PreviewedMeasurand>>;

/** Both previews of one question, of the same number of trials and on the same random numbers. */
export interface Previews {
  readonly id: number;
  readonly trials: number;
  readonly stated: Preview;
  /** `null` if nothing is changed. */
  readonly changed: Preview | null;
}

/** One measurand without a trial: its budget, and the linearised model with the stated distributions. */
export interface ComputedMeasurand {
  readonly linear: Pick<
    LinearRecord,
    "estimate" | "standardUncertainty" | "coverageFactor" | "expandedUncertainty" | "interval" | "curve"
  >;
  readonly linearised: LinearisedFigures;
}

/** What is known of both studies before a trial is drawn. */
export interface Computed {
  readonly id: number;
  readonly computed: {
    readonly stated: Readonly<Record<string, ComputedMeasurand>>;
    /** `null` where nothing is changed. */
    readonly changed: Readonly<Record<string, ComputedMeasurand>> | null;
    /** In the order of the question; `null` for one that cannot be computed. */
    readonly others: readonly (Readonly<Record<string, ComputedMeasurand>> | null)[];
  };
}

/** What trials say of the studies with kept changes; it follows the previews of as many trials. */
export interface JudgedOthers {
  readonly id: number;
  readonly trials: number;
  /** In the order of the question; `null` for one that cannot be drawn. */
  readonly judged: readonly (Preview | null)[];
}

/** Why a question has no answer. */
export interface PreviewFailure {
  readonly id: number;
  readonly message: string;
  readonly problems: readonly Problem[];
}

/** What the worker answers: what is computed at once, then the first previews, and later the refined ones. */
export type PreviewAnswer = Computed | Previews | JudgedOthers | PreviewFailure;
