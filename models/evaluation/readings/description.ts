import * as z from "zod";
import { logSchema, loggedThermometerSchema } from "../log/description.ts";
import { instantSchema } from "../text/document.ts";

const seriesSchema = z.strictObject({
  standardDeviation: z.number().gte(0).describe("s of one cycle's difference in the earlier series, K"),
  degreesOfFreedom: z.number().gt(0),
});

const rowSchema = z.strictObject({
  time: instantSchema.optional().describe("When it was read; in every row, or in none"),
  readings: z
    .record(z.string(), z.number())
    .describe("What was read, by channel: those of one row were read together, in turn if each row has one"),
});

/**
 * What calibration readings are: a log in a file, or rows that stand here, which channel is the reference, what the
 * channels read.
 */
export const readingsSchema = z.strictObject({
  $schema: z.string().optional(),
  title: z.string().min(1),
  notes: z.string().optional(),
  log: logSchema.optional(),
  rows: z.array(rowSchema).min(1).optional().describe("The readings themselves, in place of a log"),
  reference: z.string().min(1).describe("Channel of the reference thermometer"),
  channels: z.record(z.string(), loggedThermometerSchema).describe("Every channel evaluated, the reference among them"),
  history: z.record(z.string(), z.array(seriesSchema).min(1)).optional().describe("Earlier series, by probe"),
  significance: z.number().gt(0).lt(0.5).default(0.05).describe("α of the outlier test"),
});

/**
 * Readings of a comparison whose description has been checked, with its defaults: where they are, which channel is the
 * reference and what each channel reads. `readReadings` returns it.
 */
export type ReadingsDescription = z.output<typeof readingsSchema>;
