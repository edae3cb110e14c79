import * as z from "zod";
import type { Immutable } from "../immutable.ts";
import { figure, names, pair, points } from "./parts.ts";

const indexSchema = z.strictObject({ value: figure, standardError: figure, interval: pair });

const aloneSchema = z.strictObject({
  /** u_i(y): standard deviation of the measurand; `null` if the factor has none. */
  standardUncertainty: figure.nullable(),
  standardError: figure.nullable(),
  /** Mean of the measurand minus its value at the estimates: the effect of curvature in this factor on the estimate. */
  shift: figure.nullable(),
  /**
   * u_i(y)/u(x_i), in units of the measurand per unit of the input: the magnitude of a sensitivity coefficient that
   * includes all orders of the model, with the sign of `direction`. `null` for a group of several inputs.
   */
  sensitivityCoefficient: figure.nullable(),
  /** Correlation of measurand and input: ±1 if the model is linear in it. `null` for a group. */
  correlation: figure.nullable(),
  /** Whether the measurand rises or falls with the input overall; "neither" if the slope is below 4 standard errors. */
  direction: z.enum(["rises", "falls", "neither"]).nullable(),
});

const factorSchema = z.strictObject({
  /** The input's name, or the names joined by ` + `. */
  name: z.string(),
  inputs: names.min(1),
  /** Its share of u²(y) in the linear budget, with the correlated terms of a group. */
  linearShare: figure,
  alone: aloneSchema,
  /** First-order index S_i = V(E(Y|X_i))/V(Y): the share of u²(y) that would vanish if X_i were known. */
  firstOrder: indexSchema.nullable(),
  /** Total index T_i = E(V(Y|X_∼i))/V(Y): the share that would remain if all inputs except X_i were known. */
  total: indexSchema.nullable(),
});

const binSchema = z.strictObject({
  /** Smallest, mean and largest value of the input in the bin. */
  from: figure,
  at: figure,
  to: figure,
  trials: z.int(),
  /** Mean of the measurand; `null` if the measurand has none. */
  mean: figure.nullable(),
  /** Standard error of that mean; `null` if the measurand has no standard deviation. */
  standardError: figure.nullable(),
  /** 5 % and 95 % quantiles of the measurand. */
  low: figure,
  high: figure,
});

const conditionalSchema = z.strictObject({
  /** In rising order of the input; equally probable, except that equal values of the input share a bin. */
  bins: z.array(binSchema),
  /** At most 300 of the trials, rounded for a cloud of points: input and measurand. */
  points,
});

export const sensitivityRecordSchema = z.strictObject({
  /** Trials of each of the two independent sets of draws. The first set is the first trials of the run itself. */
  trials: z.int(),
  /** Confidence level of every interval here. */
  confidence: figure,
  /** Names and sources of the estimators, for readers. */
  estimators: z.strictObject({
    contribution: z.string(),
    firstOrder: z.string(),
    total: z.string(),
    interval: z.string(),
  }),
  /** u(y) from both sets of draws; `null` if the measurand has no standard deviation. */
  standardUncertainty: figure.nullable(),
  /** √(Σ u_i²(y)) of the contributions one at a time: equal to u(y) if the model is additive. */
  standardUncertaintyOneAtATime: figure.nullable(),
  /** One per input quantity, or per group of inputs that are drawn together, in the model's order. */
  factors: z.array(factorSchema),
  /** 1 − Σ S_i: the share of u²(y) that arises only from interactions of factors. */
  interaction: indexSchema.nullable(),
  /** Why indices or contributions are `null`; `null` if none is. */
  reason: z.string().nullable(),
  /** The measurand against each input that varies, by the input's name. */
  conditional: z.record(z.string(), conditionalSchema),
  /** The conclusions, in a sentence or two. */
  sentence: z.string(),
});

/**
 * What each input quantity does to one measurand, without assuming that the model is linear: what does not exist is
 * `null`, and `reason` says why.
 */
export type SensitivityRecord = Immutable<z.output<typeof sensitivityRecordSchema>>;
/** One factor: an input quantity, or several that depend on one another and are drawn together. */
export type FactorRecord = Immutable<z.output<typeof factorSchema>>;
/** This factor drawn alone, every other input fixed at its estimate (JCGM 101:2008, B.1). */
export type AloneRecord = Immutable<z.output<typeof aloneSchema>>;
/** An estimated index. Its error may take it outside [0, 1]: it is not clipped. */
export type IndexRecord = Immutable<z.output<typeof indexSchema>>;
/** The measurand as a function of one input while all inputs vary. */
export type ConditionalPicture = Immutable<z.output<typeof conditionalSchema>>;
/**
 * The trials whose input lies in one bin: the least, the mean and the greatest value of the input (`from`, `at`, `to`), in its
 * unit, and the measurand in these trials, in its own.
 */
export type ConditionalBin = Immutable<z.output<typeof binSchema>>;
