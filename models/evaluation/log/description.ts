import * as z from "zod";
import { refuse } from "../../../engine/index.ts";
import { instantSchema } from "../text/document.ts";
import type { SeriesRequest } from "./request.ts";

/** A log's file, and how it was written as far as it does not show that itself. */
export const logFileSchema = z.strictObject({
  file: z.string().min(1).describe("CSV or XLSX file beside the description"),
  sheet: z.string().optional().describe("Sheet of an XLSX file that has several"),
  headingRow: z
    .number()
    .int()
    .gte(0)
    .optional()
    .describe(
      "Row of the headings in the file, from 1, if it is not found; 0 if there are none: columns go by letters",
    ),
  time: z.string().optional().describe("Heading or letter of the time column, if the heading does not show it"),
  timeOfDay: z
    .string()
    .optional()
    .describe("Heading or letter of a column with the time of day, beside a column of dates"),
  timeUnit: z
    .enum(["ms", "s", "min", "h"])
    .optional()
    .describe("Unit of elapsed time, if the heading does not show it"),
  dates: z
    .enum(["day-first", "month-first"])
    .optional()
    .describe("Which number of a date such as 03/04/2026 is the day, if no day beyond the 12th shows it"),
  day: instantSchema.optional().describe("The day the log begins, as YYYY-MM-DD, if its times have no date"),
  clock: z
    .enum(["before", "after"])
    .optional()
    .describe("Which times are right if the clock was set back: those before, or those after"),
  sameTime: z
    .enum(["spread"])
    .optional()
    .describe("spread: rows under one time stamp are spread evenly up to the next one"),
  noReading: z
    .array(z.string().min(1))
    .optional()
    .describe("Further words that stand for no reading, beside ----, OVLD and the like"),
});

/** The log of a description: one file, or one for each of some thermometers. */
export const logSchema = logFileSchema.extend({
  more: z
    .array(logFileSchema)
    .min(1)
    .optional()
    .describe("Further files of the same log; a thermometer names its file"),
});

/** A thermometer of a log. */
export const loggedThermometerSchema = z.strictObject({
  file: z.string().optional().describe("Which of the log's files it is in; default: the first"),
  column: z.string().optional().describe("Heading or letter of its column; default: its name"),
  unit: z.string().optional().describe("°C, K, mK, °F or Ω; else as the heading says"),
  nominalResistance: z.number().gt(0).optional().describe("R₀ in Ω of a thermometer logged as a resistance"),
  coefficients: z
    .strictObject({
      A: z.number().describe("1/°C"),
      B: z.number().describe("1/°C²"),
      C: z.number().optional().describe("1/°C⁴, below 0 °C; default: that of IEC 60751"),
    })
    .optional()
    .describe("Callendar–Van Dusen coefficients of its certificate; default: those of IEC 60751"),
  its90: z
    .strictObject({
      subRange: z.string().describe('Sub-range of ITS-90, from "1" to "11"'),
      triplePointResistance: z.number().gt(0).describe("R(273.16 K), Ω"),
      coefficients: z
        .record(z.string(), z.number())
        .describe("Those of the sub-range's deviation function W − W_r, by name: a, b, c, …"),
    })
    .optional()
    .describe("In place of R₀, for a standard thermometer logged as a resistance"),
});

type LogFile = z.output<typeof logFileSchema>;
type LoggedThermometer = z.output<typeof loggedThermometerSchema>;

/** What is asked of one file of a log. */
export interface FileRequest {
  readonly file: string | undefined;
  readonly sheet: string | undefined;
  readonly request: SeriesRequest;
}

/**
 * What is asked of each file of a log, by the thermometers that are in it.
 *
 * @param field where thermometers stand in the description, for messages
 * @throws {InputError} a thermometer in a file that the log does not name, or a file without a thermometer
 */
export function fileRequests(
  log: z.output<typeof logSchema> | undefined,
  thermometers: Readonly<Record<string, LoggedThermometer>>,
  field = "thermometers",
): readonly FileRequest[] {
  const { more = [], ...first } = log ?? {};
  const files: readonly Partial<LogFile>[] = [first, ...more];
  const names = files.map(({ file }) => file);
  for (const [name, { file }] of Object.entries(thermometers))
    if (file !== undefined && !names.includes(file))
      refuse(`${field}.${name}.file`, file, `one of the log's files: ${names.join(", ")}`);
  return files.map(({ file, sheet, ...settings }, i) => {
    const own = Object.entries(thermometers).filter(([, { file: of = names[0] }]) => of === file);
    if (own.length === 0)
      refuse(i === 0 ? "log.file" : `log.more.${i - 1}.file`, file, "a file that a thermometer is in");
    return { file, sheet, request: { ...settings, thermometers: Object.fromEntries(own) } };
  });
}
