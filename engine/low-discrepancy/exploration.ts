import type { Interval } from "../coverage/coverage-interval.ts";

/** A value with its standard error, from the spread of independent repetitions. */
export interface Estimated {
  readonly value: number;
  readonly standardError: number;
}

/** A figure of a measurand, in its unit. */
export interface ExploredFigure extends Estimated {
  /** Interval that covers what infinitely many points would give, at confidence `Exploration.confidence` (Student's t). */
  readonly interval: Interval;
  /** The same figure by as many sets of plain random trials, each of as many trials as a scrambling has points. */
  readonly plain: Estimated;
  /**
   * Ratio of the squares of the standard errors, plain to low-discrepancy: how many times as many plain trials the
   * same standard error would take. `null` where the points leave no error at all.
   */
  readonly gain: number | null;
  /** Interval of the gain at the same confidence (F): few scramblings tell it roughly. */
  readonly gainInterval: Interval | null;
}

/** What an exploration tells of one measurand. */
export interface ExploredMeasurand {
  readonly symbol: string;
  readonly meaning: string;
  readonly unit: string;
  /** Mean of the model values; `null` where the measurand has no standard deviation. */
  readonly estimate: ExploredFigure | null;
  /** Standard deviation of the model values; `null` where there is none. */
  readonly standardUncertainty: ExploredFigure | null;
  /** Lower end of the study's coverage interval. */
  readonly low: ExploredFigure;
  /** Upper end. */
  readonly high: ExploredFigure;
}

/** A look at a study by scrambled Sobol' points. It is no record: a study's reported figures never come from it. */
export interface Exploration {
  readonly format: "trialband-exploration/1";
  /** What it is and is not, in a sentence. */
  readonly notice: string;
  readonly version: string;
  readonly title: string;
  readonly model: string;
  readonly seed: string;
  /** Title of the generator that scrambles, and draws the plain trials. */
  readonly generator: string;
  /** Points of a scrambling, and plain trials of a set. */
  readonly points: number;
  /** Independent scramblings, and sets of plain trials. */
  readonly scramblings: number;
  /** Dimensions of the points: one an input that varies, one more a multivariate t. */
  readonly dimensions: number;
  readonly coverage: { readonly probability: number; readonly interval: "symmetric" | "shortest" };
  /** Confidence level of the intervals of figures and gains. */
  readonly confidence: number;
  readonly measurands: Readonly<Record<string, ExploredMeasurand>>;
}
