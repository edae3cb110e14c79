/**
 * The effect of each input quantity on one measurand, without assuming that the model is linear. Plain JSON: a figure
 * that does not exist is `null`, and `reason` gives the cause.
 */
export interface SensitivityRecord {
  /** Trials of each of the two independent sets of draws. The first set is the first trials of the run itself. */
  readonly trials: number;
  /** Confidence level of every interval here. */
  readonly confidence: number;
  /** Names and sources of the estimators, for readers. */
  readonly estimators: {
    readonly contribution: string;
    readonly firstOrder: string;
    readonly total: string;
    readonly interval: string;
  };
  /** u(y) from both sets of draws; `null` if the measurand has no standard deviation. */
  readonly standardUncertainty: number | null;
  /** √(Σ u_i²(y)) of the contributions one at a time: equal to u(y) if the model is additive. */
  readonly standardUncertaintyOneAtATime: number | null;
  /** One per input quantity, or per group of inputs that are drawn together, in the model's order. */
  readonly factors: readonly FactorRecord[];
  /** 1 − Σ S_i: the share of u²(y) that arises only from interactions of factors. */
  readonly interaction: IndexRecord | null;
  /** Why indices or contributions are `null`; `null` if none is. */
  readonly reason: string | null;
  /** The measurand against each input that varies, by the input's name. */
  readonly conditional: Readonly<Record<string, ConditionalPicture>>;
  /** The conclusions, in a sentence or two. */
  readonly sentence: string;
}

/** One factor: an input quantity, or several that depend on one another and are drawn together. */
export interface FactorRecord {
  /** The input's name, or the names joined by ` + `. */
  readonly name: string;
  readonly inputs: readonly string[];
  /** Its share of u²(y) in the linear budget, with the correlated terms of a group. */
  readonly linearShare: number;
  readonly alone: AloneRecord;
  /** First-order index S_i = V(E(Y|X_i))/V(Y): the share of u²(y) that would vanish if X_i were known. */
  readonly firstOrder: IndexRecord | null;
  /** Total index T_i = E(V(Y|X_∼i))/V(Y): the share that would remain if all inputs except X_i were known. */
  readonly total: IndexRecord | null;
}

/** This factor drawn alone, every other input fixed at its estimate (JCGM 101:2008, B.1). */
export interface AloneRecord {
  /** u_i(y): standard deviation of the measurand; `null` if the factor has none. */
  readonly standardUncertainty: number | null;
  readonly standardError: number | null;
  /** Mean of the measurand minus its value at the estimates: the effect of curvature in this factor on the estimate. */
  readonly shift: number | null;
  /**
   * u_i(y)/u(x_i), in units of the measurand per unit of the input: the magnitude of a sensitivity coefficient that
   * includes all orders of the model, with the sign of `direction`. `null` for a group of several inputs.
   */
  readonly sensitivityCoefficient: number | null;
  /** Correlation of measurand and input: ±1 if the model is linear in it. `null` for a group. */
  readonly correlation: number | null;
  /** Whether the measurand rises or falls with the input overall; "neither" if the slope is below 4 standard errors. */
  readonly direction: "rises" | "falls" | "neither" | null;
}

/** An estimated index. Its error may take it outside [0, 1]: it is not clipped. */
export interface IndexRecord {
  readonly value: number;
  readonly standardError: number;
  readonly interval: readonly [number, number];
}

/** The measurand as a function of one input while all inputs vary. */
export interface ConditionalPicture {
  /** In rising order of the input; equally probable, except that equal values of the input share a bin. */
  readonly bins: readonly ConditionalBin[];
  /** At most 300 of the trials, rounded for a cloud of points. */
  readonly points: readonly (readonly [input: number, measurand: number])[];
}

export interface ConditionalBin {
  /** Smallest, mean and largest value of the input in the bin. */
  readonly from: number;
  readonly at: number;
  readonly to: number;
  readonly trials: number;
  /** Mean of the measurand; `null` if the measurand has none. */
  readonly mean: number | null;
  /** Standard error of that mean; `null` where the measurand has no standard deviation. */
  readonly standardError: number | null;
  /** 5 % and 95 % quantiles of the measurand. */
  readonly low: number;
  readonly high: number;
}
