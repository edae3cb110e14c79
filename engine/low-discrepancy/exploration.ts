import type { Interval } from "../coverage/coverage-interval.ts";

/** A value with its standard error, from the spread of independent repetitions. */
export interface Estimated {
  readonly value: number;
  readonly standardError: number;
}

/** A figure of a measurand, in its unit. */
export interface ExploredFigure extends Estimated {
  /** Interval that covers the limit for infinitely many points, at confidence `Exploration.confidence` (Student's t). */
  readonly interval: Interval;
  /** The same figure from plain random trials: as many sets as scramblings, as many trials per set as points. */
  readonly plain: Estimated;
  /**
   * Ratio of the squares of the standard errors, plain to low-discrepancy: the factor by which plain trials would have
   * to be more numerous for the same standard error. `null` if the points have no error at all.
   */
  readonly gain: number | null;
  /** Interval of the gain at the same confidence (F), wide for few scramblings. */
  readonly gainInterval: Interval | null;
}

/** The exploration of one measurand. */
export interface ExploredMeasurand {
  readonly symbol: string;
  readonly meaning: string;
  readonly unit: string;
  /** Mean of the model values; `null` where the measurand has no standard deviation. */
  readonly estimate: ExploredFigure | null;
  /** Standard deviation of the model values; `null` where there is none. */
  readonly standardUncertainty: ExploredFigure | null;
  /** Lower endpoint of the study's coverage interval. */
  readonly low: ExploredFigure;
  /** Upper endpoint. */
  readonly high: ExploredFigure;
}

/** An exploration of a study by scrambled Sobol' points. It is not a record: reported figures never come from it. */
export interface Exploration {
  readonly format: "trialband-exploration/1";
  /** A sentence about what it is and is not. */
  readonly notice: string;
  readonly version: string;
  readonly title: string;
  readonly model: string;
  readonly seed: string;
  /** Title of the generator of the scramblings and of the plain trials. */
  readonly generator: string;
  /** Number of points per scrambling, and of plain trials per set. */
  readonly points: number;
  /** Number of independent scramblings, and of sets of plain trials. */
  readonly scramblings: number;
  /** Dimensions of the points: one per input that varies, plus one per multivariate t. */
  readonly dimensions: number;
  readonly coverage: { readonly probability: number; readonly interval: "symmetric" | "shortest" };
  /** Confidence level of the intervals of figures and gains. */
  readonly confidence: number;
  readonly measurands: Readonly<Record<string, ExploredMeasurand>>;
}
