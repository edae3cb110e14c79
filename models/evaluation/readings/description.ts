import * as z from "zod";
import { logSchema, loggedThermometerSchema } from "../log/description.ts";

const seriesSchema = z.strictObject({
  standardDeviation: z.number().gte(0).describe("s of one cycle's difference in the earlier series, K"),
  degreesOfFreedom: z.number().gt(0),
});

/** What a log of calibration readings is: which file, which channel is the reference, what the channels read. */
export const readingsSchema = z.strictObject({
  $schema: z.string().optional(),
  title: z.string().min(1),
  notes: z.string().optional(),
  log: logSchema.optional(),
  reference: z.string().min(1).describe("Channel of the reference thermometer"),
  channels: z.record(z.string(), loggedThermometerSchema).describe("Every channel evaluated, the reference among them"),
  history: z.record(z.string(), z.array(seriesSchema).min(1)).optional().describe("Earlier series, by probe"),
  significance: z.number().gt(0).lt(0.5).default(0.05).describe("α of the outlier test"),
});

export type ReadingsDescription = z.output<typeof readingsSchema>;
