import * as z from "zod";
import type { Immutable } from "../immutable.ts";
import { figure, names, pair } from "./parts.ts";

const causePartSchema = z.strictObject({
  /** Its Shapley value: its move averaged over all orders in which the causes can be let in. */
  shapley: pair,
  /** Its move when it is let in alone. */
  alone: pair,
  /**
   * At the end that differs more: of a cause that pushes that end the way that all go together, its part of what pushes, 0
   * to 1; of one that takes back, the part of the push that it takes back, as a negative number.
   */
  share: figure,
  /** The inputs that make it, the strongest first. */
  inputs: names,
  /**
   * Parts of `shapley` by input, the greatest first, if they are known without the scatter of trials. Inputs that depend on
   * one another have one part.
   */
  byInput: z.array(z.strictObject({ inputs: names, shapley: pair })).exactOptional(),
});

const recommendationSchema = z.strictObject({
  action: z.enum([
    "keep",
    "keep-with-factor",
    "add-second-order",
    "report-monte-carlo",
    "gather-readings",
    /** Finite degrees of freedom of stated limits, or of resampled data, count in the budget alone. */
    "state-doubtful-limits",
    /** A stated uncertainty with few degrees of freedom, such as a certificate's. */
    "know-better",
    /** Rounding decides: state the quantity as its deviation from a nominal value. */
    "state-deviation",
    "draw-more",
  ]),
  /** The factor, if one is recommended. */
  factor: figure.nullable(),
  /** The inputs it is about. */
  inputs: names,
  sentence: z.string(),
});

export const explanationSchema = z.strictObject({
  /** Trials of the run, if it has paired figures; otherwise of each compared propagation, all on the same random numbers. */
  trials: z.int(),
  /** Monte Carlo endpoints minus linear endpoints: those of the paired figures, if there are any. */
  difference: pair,
  parts: z.strictObject({ curvature: causePartSchema, shape: causePartSchema, degreesOfFreedom: causePartSchema }),
  /** What the causes do together beyond what each does alone. Already shared out in the Shapley values. */
  interplay: pair,
  /** What is left: the scatter of the run and of the compared propagations; of paired figures, rounding alone. */
  remainder: pair,
  /** Whether what is left, or two standard errors of the paired endpoints, is within a tenth of the difference or of δ, so that the shares say something. */
  resolved: z.boolean().exactOptional(),
  /** The difference and its causes in a sentence. */
  sentence: z.string(),
  recommendation: recommendationSchema,
});

/** Why the linear interval and the Monte Carlo interval of one measurand differ. */
export type ExplanationRecord = Immutable<z.output<typeof explanationSchema>>;
/** What can make a Monte Carlo interval differ from the linear one. */
export type Cause = keyof ExplanationRecord["parts"];
/** Moves of the two endpoints of the interval, in the measurand's unit: lower, upper. */
export type EndMoves = ExplanationRecord["difference"];
/** How much one cause moves the endpoints. */
export type CausePart = Immutable<z.output<typeof causePartSchema>>;
/**
 * What to do about the difference between the intervals: a kind of advice, the coverage factor or the inputs that it is
 * about, and the advice in a sentence.
 */
export type Recommendation = Immutable<z.output<typeof recommendationSchema>>;
