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
  /** Whether the Monte Carlo figures were stable to δ/5, so that the verdict does not depend on the draw. */
  settled: z.boolean(),
  /** Whether the verdict stands beyond the scatter of the Monte Carlo endpoints, settled or not. */
  firm: z.boolean(),
  /** The same comparison at 1 and at 2 digits. */
  atDigits: z.array(z.strictObject(atDigits)),
  /** The factor k that makes the linear interval as long as the Monte Carlo one; `null` if u(y) is 0. */
  coverageFactorNeeded: figure.nullable(),
  /** The verdict as a sentence or two. */
  sentence: z.string(),
});

/** The comparison of JCGM 101, clause 8. */
export type ValidationRecord = Immutable<z.output<typeof validationSchema>>;
