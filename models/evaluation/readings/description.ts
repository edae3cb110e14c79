import * as z from "zod";

const seriesSchema = z.strictObject({
  standardDeviation: z.number().gte(0).describe("s of one cycle's difference in the earlier series, K"),
  degreesOfFreedom: z.number().gt(0),
});

/** What a log of calibration readings is: which file, which channel is the reference, what the channels read. */
export const readingsSchema = z.strictObject({
  $schema: z.string().optional(),
  title: z.string().min(1),
  notes: z.string().optional(),
  log: z
    .strictObject({
      file: z.string().min(1).describe("CSV or XLSX file beside the description"),
      sheet: z.string().optional().describe("Sheet of an XLSX file that has several"),
    })
    .optional(),
  reference: z.string().min(1).describe("Channel of the reference thermometer"),
  channels: z
    .record(
      z.string(),
      z.strictObject({
        unit: z.string().optional().describe("°C, K, mK, °F or Ω; else as the heading says"),
        nominalResistance: z
          .number()
          .gt(0)
          .optional()
          .describe("R₀ in Ω of a channel read as a resistance (IEC 60751)"),
      }),
    )
    .describe("Every channel evaluated, the reference among them"),
  history: z.record(z.string(), z.array(seriesSchema).min(1)).optional().describe("Earlier series, by probe"),
  significance: z.number().gt(0).lt(0.5).default(0.05).describe("α of the outlier test"),
});

export type ReadingsDescription = z.output<typeof readingsSchema>;
