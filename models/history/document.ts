import * as z from "zod";
import { InputError, show, type Problem } from "../../engine/index.ts";
import { readBySchema, type Immutable } from "../../engine/internal.ts";
import { daySchema } from "../evaluation/text/document.ts";

const name = z.string().min(1).max(80);
const positive = z.number().gt(0);

const resultSchema = z
  .strictObject({
    value: z.number(),
    standardUncertainty: positive.optional().describe("u of this calibration alone, without what is shared"),
    expandedUncertainty: positive.optional().describe("U, with coverageFactor"),
    coverageFactor: positive.optional(),
  })
  .refine(
    ({ standardUncertainty: u, expandedUncertainty: U, coverageFactor: k }) =>
      u === undefined ? U !== undefined && k !== undefined : U === undefined && k === undefined,
    { message: "standardUncertainty alone, or expandedUncertainty with coverageFactor" },
  );

const quantitySchema = z.strictObject({
  name: name.describe("As the results name it: error at 0 °C, R0, half-width of the stability"),
  unit: z.string().min(1).max(20),
  shared: positive
    .optional()
    .describe(
      "Standard uncertainty that all calibrations share, such as that of the scale: it moves values, not the drift",
    ),
  limit: positive.optional().describe("Greatest change since the last calibration that is accepted"),
  input: z.string().min(1).optional().describe("Input quantity of a study that the drift is stated for"),
  coverageFactor: positive.default(2).describe("k of the expanded uncertainties of a table"),
});

/** The same instrument, reference or bath over the years. */
export const historySchema = z.strictObject({
  $schema: z.string().optional(),
  title: z.string().min(1).max(200),
  notes: z.string().optional(),
  subject: z.string().min(1).describe("What was calibrated or surveyed: reference HR-02"),
  quantities: z.array(quantitySchema).min(1).max(20),
  table: z
    .string()
    .min(1)
    .optional()
    .describe("CSV beside this document: date, a column for each quantity by its name, u(NAME) or U(NAME) beside it"),
  calibrations: z
    .array(
      z.strictObject({
        date: daySchema,
        source: z.string().min(1).optional().describe("Certificate or survey"),
        results: z.record(z.string(), resultSchema).describe("Result of each quantity, by its name"),
      }),
    )
    .max(200)
    .default([]),
  use: daySchema.describe("Day of the next use, YYYY-MM-DD"),
  coverageProbability: z.number().gt(0.5).lt(1).default(0.95),
  significance: z.number().gt(0).lt(0.5).default(0.05).describe("α of the χ² test of the straight line"),
});

export type HistoryDocument = Immutable<z.output<typeof historySchema>>;
export type HistoryQuantity = HistoryDocument["quantities"][number];
export type HistoryCalibration = HistoryDocument["calibrations"][number];

/**
 * Reads a history whose table, if it names one, has been read into its calibrations (`calibrationsOfTable`).
 *
 * @throws {InputError} every problem found, each with its place
 */
export function readHistory(document: unknown): HistoryDocument {
  const history = readBySchema(historySchema, document);
  const problems: Problem[] = [];
  const names = history.quantities.map((quantity) => quantity.name);
  names.forEach((one, i) => {
    if (names.indexOf(one) !== i)
      problems.push({ place: `quantities.${i}.name`, value: show(one), accepted: "another name for each quantity" });
  });
  const dates = history.calibrations.map(({ date }) => date);
  history.calibrations.forEach(({ date, results }, i) => {
    if (dates.indexOf(date) !== i)
      problems.push({ place: `calibrations.${i}.date`, value: date, accepted: "one calibration a day" });
    for (const one of Object.keys(results))
      if (!names.includes(one))
        problems.push({ place: `calibrations.${i}.results`, value: show(one), accepted: `one of ${names.join(", ")}` });
  });
  if (problems.length > 0) throw new InputError(problems);
  return history;
}
