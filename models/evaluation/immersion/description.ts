import * as z from "zod";

/** An immersion check as a laboratory writes it down: one withdrawal, readings at several depths, or both. */
export const immersionSchema = z.strictObject({
  $schema: z.string().optional(),
  title: z.string().min(1),
  notes: z.string().optional(),
  planned: z.number().gt(0).describe("Depth the probe will be used at, mm"),
  limit: z.number().gt(0).describe("Largest error that is acceptable, K"),
  withdrawal: z
    .strictObject({
      depth: z.number().gt(0).describe("mm"),
      withdrawn: z.number().gt(0).default(10).describe("mm"),
      before: z.number().describe("Reading less that of a thermometer that stays, K"),
      after: z.number().describe("The same, withdrawn, K"),
      again: z
        .number()
        .optional()
        .describe("The same, withdrawn once more by the same length, K: it gives the decay length"),
      conductionLength: z
        .number()
        .gt(0)
        .optional()
        .describe("Decay length of the stem's conduction, mm, if known; without it and a second withdrawal, 60 mm"),
      conductionLengthUncertainty: z.number().gte(0).optional().describe("Its standard uncertainty, mm"),
      standardUncertainty: z.number().gt(0).optional().describe("Of the change, K"),
    })
    .optional(),
  depths: z
    .array(
      z.strictObject({
        depth: z.number().gt(0).describe("mm"),
        reading: z.number().describe("Less that of a thermometer that stays, K; or °C, with that beside it"),
        reference: z.number().optional().describe("Reading of the thermometer that stays, °C: taken off the reading"),
      }),
    )
    .min(3)
    .optional(),
});

/**
 * An immersion check that has been checked as a description, with its defaults: one withdrawal, readings at several
 * depths, or both. `readImmersion` returns it. Depths are in mm, errors in K.
 */
export type ImmersionDescription = z.output<typeof immersionSchema>;
