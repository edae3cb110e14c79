import * as z from "zod";
import { evidenceSchema } from "../distributions/evidence.ts";
import type { Immutable } from "../immutable.ts";
import { quantityFields } from "../quantity.ts";
import { budgetLineFields, figure, points } from "./parts.ts";

export const inputSchema = z.strictObject({
  ...quantityFields,
  /** Kind of distribution in the words of JCGM 101. */
  distribution: z.string(),
  /** Where the figures come from, or `null` if the study does not say. */
  source: z.string().nullable(),
  /** The raw readings or documents that the figures were evaluated from, or `null`. */
  evidence: evidenceSchema.nullable(),
  ...budgetLineFields,
  /** Those it is drawn with, if simultaneous readings leave other ones than the budget's (JCGM 102, 5.3.2). */
  drawnDegreesOfFreedom: figure.exactOptional(),
  /** Mean of the distribution drawn from; `null` if none exists. */
  mean: figure.nullable(),
  /** Standard deviation of the distribution drawn from; `null` if it is infinite or does not exist. */
  standardDeviation: figure.nullable(),
  /** The density over its middle part, for a small picture: x and density there. */
  curve: points,
});

/** An input quantity: what was stated, and what each method makes of it. */
export type InputRecord = Immutable<z.output<typeof inputSchema>>;

export const leftOutSchema = z.strictObject({
  name: z.string(),
  symbol: z.string(),
  meaning: z.string(),
  unit: z.string(),
  /** Why it is left out, or `null` if the study does not say. */
  because: z.string().nullable(),
});

/** An optional input that a study does not state, and why, if it says so. */
export type LeftOutInput = Immutable<z.output<typeof leftOutSchema>>;
