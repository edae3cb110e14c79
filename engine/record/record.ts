import type { Evidence } from "../distributions/evidence.ts";
import type { CorrelatedTerm } from "./correlated-term.ts";
import type { ConformityRecord } from "../conformity/conformity-record.ts";
import type { ExplanationRecord } from "../explanation/explanation-record.ts";
import type { SecondOrder } from "../linear/second-order.ts";
import type { CurveRecord, JointRecord } from "../joint/joint-record.ts";
import type { SensitivityRecord } from "../sensitivity/sensitivity-record.ts";
import type { SweepRecord } from "./sweep-record.ts";
import type { Study } from "../study.ts";
import type { Quantity } from "../model.ts";
import type { Figure, SettlingPoint } from "./settling-record.ts";

/**
 * What a run leaves behind, as plain JSON: everything a person needs to read the result and a machine to repeat it.
 * No `NaN` or `Infinity`: what does not exist, or is infinite, is `null`, as each field says.
 *
 * The record of one study and one version of the engine is the same bits however many workers drew the trials; what
 * differs from run to run (time, machine) stands in `environment` alone.
 */
export interface RunRecord {
  readonly format: "trialband-record/2";
  readonly engine: { readonly name: "trialband"; readonly version: string };
  readonly study: Study;
  readonly model: ModelSummary;
  readonly coverage: {
    /** Which custom the study follows: a probability with k from t, or a fixed factor k. */
    readonly custom: "probability" | "factor";
    /** The probability asked for, or the one the fixed factor claims for a normal distribution. */
    readonly probability: number;
    /** The Monte Carlo interval the budget is compared with. */
    readonly interval: "symmetric" | "shortest";
  };
  readonly generator: { readonly id: string; readonly title: string; readonly seed: string };
  readonly trials: {
    readonly count: number;
    /** Trials a batch of the adaptive procedure has. */
    readonly batch: number;
    /** Why the run stopped: the number asked for, the figures settled, or the limit of an adaptive run. */
    readonly stop: "fixed" | "settled" | "limit";
    /** Trials left out since the model is undefined for them, where the study says so; `count` is of the others. */
    readonly leftOut?: number;
  };
  readonly inputs: Readonly<Record<string, InputRecord>>;
  /** Optional inputs of the model that the study does not state: taken as zero. Missing where there are none. */
  readonly leftOut?: readonly LeftOutInput[];
  readonly measurands: Readonly<Record<string, MeasurandRecord>>;
  /** What several measurands have in common; `null` where there is one. */
  readonly joint: JointRecord | null;
  /**
   * The calibration curve that the measurands are parameters of, with its uncertainty; `null` where the model declares
   * none, and in a snapshot of a run that goes on.
   */
  readonly calibrationCurve: CurveRecord | null;
  /** The result over a range; `null` where the study does not sweep. */
  readonly sweep: SweepRecord | null;
  /** Remarks a reader must know to read the figures, as sentences. */
  readonly remarks: readonly string[];
  /** What may hurt a person who makes this measurement, as sentences; warnings about the study's own bath come first. */
  readonly cautions: readonly string[];
  readonly environment?: Environment;
}

export interface ModelSummary {
  readonly id: string;
  readonly title: string;
  readonly equation: string | null;
  readonly source: string | null;
  /** Whether the model keeps to functions with fixed bits; if not, bits hold for one JavaScript engine only. */
  readonly fixedBits: boolean;
}

/** Differs from run to run; never part of what is compared. */
export interface Environment {
  readonly startedAt: string;
  readonly seconds: number;
  readonly workers: number;
  readonly runtime: string;
}

/** An optional input that a study does not state, and why, where it says so. */
export interface LeftOutInput {
  readonly name: string;
  readonly symbol: string;
  readonly meaning: string;
  readonly unit: string;
  readonly because: string | null;
}

/** An input quantity: what was stated, and what each method makes of it. */
export interface InputRecord extends Quantity {
  /** Kind of distribution in the words of JCGM 101. */
  readonly distribution: string;
  /** Where the figures come from, or `null` where the study does not say. */
  readonly source: string | null;
  /** The records at hand that the figures were evaluated from, or `null`. */
  readonly evidence: Evidence | null;
  readonly estimate: number;
  readonly standardUncertainty: number;
  /** `null`: infinite. */
  readonly degreesOfFreedom: number | null;
  readonly evaluation: "A" | "B";
  /** Mean of the distribution drawn from; `null` where none exists. */
  readonly mean: number | null;
  /** Standard deviation of the distribution drawn from; `null` where it is infinite or does not exist. */
  readonly standardDeviation: number | null;
  /** The density over its middle part, for a small picture: x and density there. */
  readonly curve: readonly (readonly [x: number, density: number])[];
}

export interface MeasurandRecord extends Quantity {
  readonly linear: LinearRecord;
  readonly monteCarlo: MonteCarloRecord;
  readonly validation: ValidationRecord;
  /** The budget with its next-order terms; `null` where inputs are correlated or the model bends too sharply for them. */
  readonly secondOrder: SecondOrderRecord | null;
  /** Why the two intervals differ; `null` in a snapshot of a run that goes on. */
  readonly explanation: ExplanationRecord | null;
  /** Whether the measurand conforms, where the study states a tolerance. */
  readonly conformity: ConformityRecord | null;
  /** Sensitivity without linearity, where the study asks for it. */
  readonly sensitivity: SensitivityRecord | null;
}

/** The budget mended by its next-order terms (JCGM 100, 5.1.2, note), compared like the first-order one. */
export interface SecondOrderRecord extends SecondOrder {
  /** y + bias ± k·u, with the budget's k. */
  readonly interval: readonly [number, number];
  readonly dLow: number;
  readonly dHigh: number;
  readonly validated: boolean;
}

/** The linear budget (JCGM 100). */
export interface LinearRecord {
  readonly estimate: number;
  readonly standardUncertainty: number;
  readonly coverageFactor: number;
  /** `null`: infinite. */
  readonly effectiveDegreesOfFreedom: number | null;
  readonly expandedUncertainty: number;
  readonly interval: readonly [number, number];
  readonly contributions: readonly ContributionRecord[];
  readonly correlatedTerms: readonly CorrelatedTerm[];
  /** Inputs whose sensitivity coefficient is not one number, since the model has a kink or a step at the estimate. */
  readonly doubtful?: readonly string[];
  /** The density the budget stands for (normal, or t with its effective degrees of freedom): x and density. */
  readonly curve: readonly (readonly [x: number, density: number])[];
}

export interface ContributionRecord {
  readonly input: string;
  readonly estimate: number;
  readonly standardUncertainty: number;
  readonly degreesOfFreedom: number | null;
  readonly evaluation: "A" | "B";
  readonly sensitivityCoefficient: number;
  readonly contribution: number;
  readonly share: number;
}

/** The Monte Carlo result (JCGM 101). */
export interface MonteCarloRecord {
  /** `null` where the distribution has no mean. */
  readonly estimate: number | null;
  /** `null` where the distribution has no standard deviation. */
  readonly standardUncertainty: number | null;
  readonly trials: number;
  readonly probability: number;
  readonly intervals: { readonly symmetric: readonly [number, number]; readonly shortest: readonly [number, number] };
  readonly skewness: number | null;
  /** 0 for a normal distribution. */
  readonly excessKurtosis: number | null;
  readonly least: number;
  readonly greatest: number;
  readonly standardErrors: {
    readonly estimate: number | null;
    readonly standardUncertainty: number | null;
    readonly symmetric: readonly [number, number];
    /** `null` where there were too few batches to tell. */
    readonly shortest: readonly [number, number] | null;
  };
  readonly histogram: Histogram;
  /**
   * Most that an end of the symmetric interval may be off because trials were counted in bins, not kept: only where there
   * are more than two million.
   */
  readonly resolution?: number;
  /** Points of the distribution function: probability and the value there, to a few thousandths of the standard uncertainty. */
  readonly distributionFunction: readonly (readonly [probability: number, value: number])[];
  readonly settling: {
    readonly points: readonly SettlingPoint[];
    /** 2·s_z must be at most this: δ/5. */
    readonly limit: number;
    readonly settled: boolean;
    /** 2·s_z of each figure at the end. */
    readonly doubled: Readonly<Record<Figure, number | null>>;
  };
}

export interface Histogram {
  /** Lower edge of the first bin. */
  readonly low: number;
  readonly width: number;
  readonly counts: readonly number[];
  /** Trials below the first and above the last bin. */
  readonly below: number;
  readonly above: number;
}

/** The comparison of JCGM 101, clause 8. */
export interface ValidationRecord {
  readonly significantDigits: 1 | 2;
  /** δ. */
  readonly numericalTolerance: number;
  readonly dLow: number;
  readonly dHigh: number;
  readonly validated: boolean;
  /** Whether the Monte Carlo figures were stable to δ/5, so that the verdict does not hang on the draw. */
  readonly settled: boolean;
  /** Whether the verdict stands beyond the scatter of the Monte Carlo ends, settled or not. */
  readonly firm: boolean;
  /** The same comparison at 1 and at 2 digits. */
  readonly atDigits: readonly {
    readonly significantDigits: 1 | 2;
    readonly numericalTolerance: number;
    readonly validated: boolean;
  }[];
  /** The factor k that makes the linear interval as long as the Monte Carlo one; `null` where u(y) is 0. */
  readonly coverageFactorNeeded: number | null;
  /** The verdict as a sentence or two. */
  readonly sentence: string;
}
