import * as z from "zod";
import type { Immutable } from "../immutable.ts";
import { figure, pair } from "./parts.ts";

const sweepPointSchema = z.strictObject({
  at: figure,
  second: figure.exactOptional(),
  part: z.string().exactOptional(),
  trials: z.int(),
  measurands: z.record(
    z.string(),
    z.strictObject({
      linear: z.strictObject({
        estimate: figure,
        standardUncertainty: figure,
        coverageFactor: figure,
        expandedUncertainty: figure,
        interval: pair,
      }),
      monteCarlo: z.strictObject({
        estimate: figure.nullable(),
        standardUncertainty: figure.nullable(),
        /** Of the kind the study compares with. */
        interval: pair,
      }),
      validated: z.boolean(),
      /** Whether the trials decide the verdict. Not known of records before 0.3. */
      firm: z.boolean().exactOptional(),
      /** Set if neither the budget nor the trials find any uncertainty. */
      nothingVaries: z.literal(true).exactOptional(),
      coverageFactorNeeded: figure.nullable(),
    }),
  ),
});

export const sweepRecordSchema = z.strictObject({
  quantity: z.string(),
  unit: z.string(),
  second: z.strictObject({ quantity: z.string(), unit: z.string() }).exactOptional(),
  points: z.array(sweepPointSchema),
});

/** Both methods' result at one point of a sweep. */
export type SweepPoint = Immutable<z.output<typeof sweepPointSchema>>;
/** The result over a range. */
export type SweepRecord = Immutable<z.output<typeof sweepRecordSchema>>;
