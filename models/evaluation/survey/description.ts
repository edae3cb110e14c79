import * as z from "zod";
import { bathSchema } from "../../safety/fluids.ts";
import { logSchema, loggedThermometerSchema } from "../log/description.ts";
import { instantSchema } from "../text/document.ts";

const positionSchema = z.strictObject({
  depth: z.number().gte(0).describe("Depth of the sensing element below the surface, mm"),
  radius: z.number().gte(0).default(0).describe("Horizontal distance from the axis of the zone, mm"),
  direction: z.string().optional().describe("Which way from the axis, in words: east, towards the stirrer"),
});

const stepSchema = z.strictObject({
  from: instantSchema,
  to: instantSchema,
  at: z.record(z.string(), z.string()).describe("Position of each thermometer, by name"),
});

/** What a survey log is: which file, which thermometer was where and when, and which zone is evaluated. */
export const surveySchema = z.strictObject({
  $schema: z.string().optional(),
  title: z.string().min(1),
  notes: z.string().optional(),
  bath: bathSchema.optional(),
  log: logSchema.optional(),
  thermometers: z
    .record(z.string(), loggedThermometerSchema)
    .describe("The survey thermometers, by their heading in the log, or by a name if they state their column"),
  positions: z.record(z.string(), positionSchema).describe("Every position, by name"),
  reference: z.string().describe("The position all differences are taken from"),
  steps: z.array(stepSchema).min(1),
  settlingMinutes: z
    .number()
    .gte(0)
    .default(5)
    .describe("Left out at the start of a step in which a thermometer moved"),
  calibrationMinutes: z.number().gt(0).describe("How long one calibration at this temperature takes"),
  stability: z
    .strictObject({
      thermometer: z.string().optional().describe("Default: the one that stays longest at the reference position"),
      from: instantSchema.optional(),
      to: instantSchema.optional(),
      windowMinutes: z
        .number()
        .gt(0)
        .optional()
        .describe("Default: 30 min, or the duration of the calibration if that is longer"),
      cycleMinutes: z
        .number()
        .gt(0)
        .optional()
        .describe(
          "Duration of one cycle, if the comparison is read in cycles reference–probe–reference and corrected for drift. " +
            "The stability stated is then the change over that time",
        ),
    })
    .optional(),
  zone: z
    .strictObject({
      depth: z
        .tuple([z.number().gte(0), z.number().gte(0)])
        .optional()
        .describe("Least and greatest depth, mm"),
      radius: z.number().gte(0).optional().describe("Greatest horizontal distance, mm"),
    })
    .default({})
    .describe("The zone probes are calibrated in; default: all that was surveyed"),
  arrangement: z
    .enum(["reference-fixed", "midpoint", "anywhere"])
    .default("reference-fixed")
    .describe(
      "reference-fixed: the reference thermometer stands at the reference position; midpoint: as before, corrected to the middle " +
        "of the zone; anywhere: either thermometer may stand anywhere in the zone",
    ),
  maximumGapSeconds: z
    .number()
    .gt(0)
    .optional()
    .describe("A longer silence of the log counts as a gap; default 2.5 sampling intervals"),
});

/**
 * A bath's survey whose description has been checked, with its defaults: the log, which thermometer was where and when,
 * and the zone. `readSurvey` returns it. Positions are in mm, times as instants, durations in the unit of the field's
 * name.
 */
export type SurveyDescription = z.output<typeof surveySchema>;
/** A survey description as a person writes it. */
export type SurveyDocument = z.input<typeof surveySchema>;
