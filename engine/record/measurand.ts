import * as z from "zod";
import { conformityRecordSchema } from "./conformity.ts";
import { explanationSchema } from "./explanation.ts";
import type { Immutable } from "../immutable.ts";
import { linearSchema, secondOrderSchema } from "./linear.ts";
import { linearisedSchema } from "./linearised.ts";
import { monteCarloSchema } from "./monte-carlo.ts";
import { quantityFields } from "../quantity.ts";
import { pairedSchema } from "./paired.ts";
import { sensitivityRecordSchema } from "./sensitivity.ts";
import { validationSchema } from "./validation.ts";

export const measurandSchema = z.strictObject({
  ...quantityFields,
  linear: linearSchema,
  /** The linearised model with the stated distributions. Missing in a snapshot of a run and in records of before 0.4.0. */
  linearised: linearisedSchema.exactOptional(),
  monteCarlo: monteCarloSchema,
  validation: validationSchema,
  /** What paired trials say of that verdict. Missing in a snapshot of a run and in records of before 0.4.0. */
  paired: pairedSchema.exactOptional(),
  /** The budget with its next-order terms; `null` if inputs are correlated or the model bends too sharply for them. */
  secondOrder: secondOrderSchema.nullable(),
  /** Why the two intervals differ; `null` in a snapshot of a run that goes on. */
  explanation: explanationSchema.nullable(),
  /** Whether the measurand conforms, if the study states a tolerance. */
  conformity: conformityRecordSchema.nullable(),
  /** Sensitivity without linearity, if the study asks for it. */
  sensitivity: sensitivityRecordSchema.nullable(),
});

/**
 * What a record has of one measurand: the linear budget (JCGM 100), what the trials show (JCGM 101), whether the budget
 * is validated (JCGM 101, 8) and why. Figures are in the measurand's `unit` if their field names no other.
 */
export type MeasurandRecord = Immutable<z.output<typeof measurandSchema>>;
