import * as z from "zod";
import type { Immutable } from "../immutable.ts";
import { figure } from "./parts.ts";

/** Limits of an interval; `null`: no limit on that side. */
const limits = { lower: figure.nullable(), upper: figure.nullable() };

const assessmentSchema = z.strictObject({
  /** The measured value that is compared with the acceptance limits. */
  estimate: figure,
  /** `null` if the distribution has no standard deviation. */
  standardUncertainty: figure.nullable(),
  /** U: of the budget, k·u(y); of the Monte Carlo, half the length of the study's coverage interval. */
  expandedUncertainty: figure,
  /** w = r·U, the wider of the two if they differ; negative for guarded rejection. */
  guardBand: figure,
  /** w at each limit, from the distance to that end of the coverage interval. Records before 0.3 have one for both. */
  guardBands: z.strictObject({ lower: figure, upper: figure }).exactOptional(),
  /** `null` if the guard bands leave nothing to accept. */
  acceptance: z.strictObject(limits).nullable(),
  decision: z.enum(["accepted", "rejected"]),
  /** Whether the decision stands beyond the scatter of the trials. Not known of records before 0.3. */
  firm: z.boolean().exactOptional(),
  /** p_c: probability that the measurand lies in its tolerance, given the measurement alone. */
  probabilityOfConformity: figure,
  /** Its standard error from the number of trials; `null` for the budget, which has none. */
  standardError: figure.nullable(),
  /** P(Y < lower limit) and P(Y > upper limit). */
  below: figure,
  above: figure,
  /**
   * Risk of this decision on this item: the specific consumer's risk 1 − p_c if accepted (3.3.13), the specific producer's
   * risk p_c if rejected (3.3.14).
   */
  specificRisk: z.strictObject({ bearer: z.enum(["consumer", "producer"]), value: figure }),
  /** C_m = (T_U − T_L)/(4·u) (7.6.2); `null` with one limit, or without an uncertainty. */
  measurementCapability: figure.nullable(),
  /** The item's measurand with the prior taken into account, both normal (7.2); `null` without a prior or a u(y). */
  posterior: z
    .strictObject({
      estimate: figure,
      standardUncertainty: figure,
      probabilityOfConformity: figure,
      specificRisk: figure,
    })
    .nullable(),
  /** Risks R_C and R_P of the next item before it is measured, both distributions normal (9.5); `null` without a prior or a u(y). */
  globalRisk: z.strictObject({ consumer: figure, producer: figure }).nullable(),
});

export const conformityRecordSchema = z.strictObject({
  tolerance: z.strictObject({
    ...limits,
    /** What sets the limits, in words. */
    basis: z.string().nullable(),
  }),
  rule: z.strictObject({
    name: z.enum(["simple acceptance", "guarded acceptance", "guarded rejection"]),
    /** r of the guard band w = r·U. */
    guardBandMultiplier: figure,
    /** Clause that describes the rule. */
    source: z.string(),
  }),
  /** The items before one is measured, and how many of them conform; `null` if the study states no prior. */
  prior: z
    .strictObject({
      mean: figure,
      standardDeviation: figure,
      source: z.string().nullable(),
      probabilityOfConformity: figure,
    })
    .nullable(),
  linear: assessmentSchema,
  monteCarlo: assessmentSchema,
  /** Whether both methods decide alike. */
  agree: z.boolean(),
  /** Decision and risk in words. */
  sentence: z.string(),
});

/** Whether one measurand conforms to its tolerance (JCGM 106:2012), by both methods. */
export type ConformityRecord = Immutable<z.output<typeof conformityRecordSchema>>;
/** One method's assessment. */
export type AssessmentRecord = Immutable<z.output<typeof assessmentSchema>>;
