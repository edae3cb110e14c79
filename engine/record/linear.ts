import * as z from "zod";
import type { Immutable } from "../immutable.ts";
import { between, budgetLineFields, figure, pair, points } from "./parts.ts";

const contributionSchema = z.strictObject({
  input: z.string(),
  ...budgetLineFields,
  sensitivityCoefficient: figure,
  /** c·u(x), with its sign. */
  contribution: figure,
  /** Its part of u²(y), 0 to 1 without correlation. */
  share: figure,
});

const correlatedTermSchema = z.strictObject({
  between,
  coefficient: figure,
  term: figure,
  /** Its part of u²(y); negative if it makes the uncertainty smaller. */
  share: figure,
});

export const linearSchema = z.strictObject({
  estimate: figure,
  standardUncertainty: figure,
  coverageFactor: figure,
  /** `null`: infinite. */
  effectiveDegreesOfFreedom: figure.nullable(),
  expandedUncertainty: figure,
  interval: pair,
  contributions: z.array(contributionSchema),
  correlatedTerms: z.array(correlatedTermSchema),
  /** Inputs whose sensitivity coefficient is not one number, since the model has a kink or a step at the estimate. */
  doubtful: z.array(z.string()).exactOptional(),
  /** The density the budget stands for (normal, or t with its effective degrees of freedom): x and density. */
  curve: points,
});

export const secondOrderSchema = z.strictObject({
  /** ½·Σ f_ii·u_i²: by how much the mean of Y lies off f at the estimates. */
  bias: figure,
  standardUncertainty: figure,
  /** [½·f_ij² + f_i·f_ijj]·u_i²·u_j², for both orders of a pair; the largest first, those below 1e-6 of u²(y) left out. */
  terms: z.array(z.strictObject({ between, term: figure })),
  /** y + bias ± k·u, with the budget's k. */
  interval: pair,
  dLow: figure,
  dHigh: figure,
  validated: z.boolean(),
});

/**
 * One input's line of the linear budget (JCGM 100, 5.1.3): estimate and u(x) in the input's unit, c in the measurand's
 * unit over the input's, c·u(x) in the measurand's.
 */
export type ContributionRecord = Immutable<z.output<typeof contributionSchema>>;
/** What a correlation between two inputs adds to u²(y): 2·c_i·c_j·u(x_i)·u(x_j)·r (JCGM 100, 5.2.2). */
export type CorrelatedTerm = Immutable<z.output<typeof correlatedTermSchema>>;
/** The linear budget (JCGM 100). */
export type LinearRecord = Immutable<z.output<typeof linearSchema>>;
/** The budget with its next-order terms (JCGM 100, 5.1.2, note), compared like the first-order one. */
export type SecondOrderRecord = Immutable<z.output<typeof secondOrderSchema>>;
