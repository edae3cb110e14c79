import { refuse } from "../../engine/index.ts";
import {
  allRows,
  certificateSchema,
  immersionSchema,
  readBudgetTable,
  readDocument,
  readingsSchema,
  readSeries,
  surveySchema,
  type BudgetTableOptions,
  type BudgetTableReading,
  type Certificate,
  type ImmersionDescription,
  type Indication,
  type ReadingsDescription,
  type Series,
  type SurveyDescription,
  type ThermometerLog,
} from "../../models/index.ts";
import { beside, readJson } from "./document.ts";
import { nameOf, type FileSource } from "./source.ts";
import { openTable } from "./table.ts";

/** A survey with its logs, ready for `evaluateSurvey(description, logs)`. */
export interface LoadedSurvey {
  readonly description: SurveyDescription;
  readonly logs: readonly ThermometerLog[];
  readonly series: Series;
}

/**
 * Reads the log of a survey: only what lies within the steps is kept, so that memory follows what is evaluated and not
 * how long the logger ran.
 *
 * @throws {InputError}
 */
export async function readSurveyLog(description: SurveyDescription, source: FileSource): Promise<Series> {
  const { log, thermometers, steps, stability } = description;
  const wanted = [
    ...steps,
    ...(stability?.from !== undefined && stability.to !== undefined
      ? [{ from: stability.from, to: stability.to }]
      : []),
  ];
  return readSeries(openTable(source, log?.sheet), { time: log?.time, thermometers, keep: merged(wanted) });
}

function merged(ranges: readonly { readonly from: number; readonly to: number }[]): { from: number; to: number }[] {
  const sorted = ranges.map(({ from, to }) => ({ from, to })).sort((a, b) => a.from - b.from);
  const joined: { from: number; to: number }[] = [];
  for (const range of sorted) {
    const last = joined.at(-1);
    if (last !== undefined && range.from <= last.to) last.to = Math.max(last.to, range.to);
    else joined.push(range);
  }
  return joined;
}

/** Reads a survey description and the log beside it. @throws {InputError} */
export async function loadSurvey(path: string): Promise<LoadedSurvey> {
  const description = readDocument(surveySchema, await readJson(path));
  if (description.log === undefined)
    refuse("log.file", undefined, "the CSV or XLSX file of the log, beside the description");
  const series = await readSurveyLog(description, beside(path, description.log!.file));
  return { description, logs: series.logs, series };
}

/** Calibration readings, ready for `evaluateReadings(description, indications)`. */
export interface LoadedReadings {
  readonly description: ReadingsDescription;
  readonly indications: readonly Indication[];
  readonly series: Series;
}

/** Reads a log of comparison readings, in order of time. @throws {InputError} */
export async function readIndications(
  description: ReadingsDescription,
  source: FileSource,
): Promise<{ readonly indications: readonly Indication[]; readonly series: Series }> {
  const series = await readSeries(openTable(source, description.log?.sheet), {
    thermometers: description.channels,
    oneAtATime: true,
  });
  const indications = series.logs
    .flatMap(({ thermometer, times, values }) =>
      Array.from(times, (time, i) => ({ time, channel: thermometer, value: values[i]! })),
    )
    .sort((a, b) => a.time - b.time);
  return { indications, series };
}

/** Reads a description of readings and the log beside it. @throws {InputError} */
export async function loadReadings(path: string): Promise<LoadedReadings> {
  const description = readDocument(readingsSchema, await readJson(path));
  if (description.log === undefined)
    refuse("log.file", undefined, "the CSV or XLSX file of the readings, beside the description");
  return { description, ...(await readIndications(description, beside(path, description.log!.file))) };
}

/** Reads a certificate description. @throws {InputError} */
export const loadCertificate = async (source: FileSource): Promise<Certificate> =>
  readDocument(certificateSchema, await readJson(source));

/** Reads an immersion description. @throws {InputError} */
export const loadImmersion = async (source: FileSource): Promise<ImmersionDescription> =>
  readDocument(immersionSchema, await readJson(source));

/** Reads a budget kept as a table. @throws {InputError} every cell that cannot be used, with file, row and column */
export async function loadBudgetTable(
  source: FileSource,
  options: Partial<BudgetTableOptions> & { readonly sheet?: string } = {},
): Promise<BudgetTableReading> {
  const { sheet, ...rest } = options;
  const rows = await allRows(openTable(source, sheet));
  return readBudgetTable(rows, { ...rest, title: options.title ?? nameOf(source).replace(/\.[^.]+$/, "") });
}
