import * as z from "zod";
import type { Immutable } from "../immutable.ts";
import { digits, figure } from "./parts.ts";

const atDigits = {
  significantDigits: digits,
  /** δ. */
  numericalTolerance: figure,
  validated: z.boolean(),
};

export const validationSchema = z.strictObject({
  ...atDigits,
  dLow: figure,
  dHigh: figure,
  /** Whether the Monte Carlo figures were stable to δ/5. */
  settled: z.boolean(),
  /** Whether the trials decide the verdict. */
  firm: z.boolean(),
  /** Why they do not, if they do not. */
  doubts: z.array(z.enum(["scatter", "scatterUnknown", "fewTrials", "rounding"])).exactOptional(),
  /** Set if neither the budget nor the trials find any uncertainty, so that there is nothing to validate. */
  nothingVaries: z.literal(true).exactOptional(),
  /** The same comparison at 1 and at 2 digits. */
  atDigits: z.array(z.strictObject(atDigits)),
  /** The factor k that makes the linear interval as long as the Monte Carlo one; `null` if u(y) is 0. */
  coverageFactorNeeded: figure.nullable(),
  /** The verdict as a sentence or two. */
  sentence: z.string(),
});

/** The comparison of JCGM 101, clause 8. */
export type ValidationRecord = Immutable<z.output<typeof validationSchema>>;
/** Why trials may fail to decide a verdict. */
export type Doubt = NonNullable<ValidationRecord["doubts"]>[number];
