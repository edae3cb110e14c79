import { refuse, show } from "../../engine/index.ts";
import {
  certificateSchema,
  fileRequests,
  immersionSchema,
  readDocument,
  readingsSchema,
  asStated,
  readMapped,
  readSeries,
  statedReadings,
  surveySchema,
  type BudgetSheet,
  type BudgetTableOptions,
  type BudgetTableReading,
  type Certificate,
  type FileRequest,
  type ImmersionDescription,
  type ReadingsDescription,
  type Series,
  type SeriesRequest,
  type StatedMapping,
  type StatedReadings,
  type SurveyDescription,
  type ThermometerLog,
} from "../../models/index.ts";
import { beside, readJson } from "./document.ts";
import { openSheets } from "./sheets.ts";
import { nameOf, type FileSource } from "./source.ts";
import { openLog } from "./table.ts";

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
 * @param open opens a file of the log by the name the description gives it; `undefined` if it names none
 * @throws {InputError}
 */
export async function readSurveyLog(description: SurveyDescription, open: OpenLogFile): Promise<Series> {
  const { log, thermometers, steps, stability } = description;
  const wanted = [
    ...steps,
    ...(stability?.from !== undefined && stability.to !== undefined
      ? [{ from: stability.from, to: stability.to }]
      : []),
  ];
  return readLogFiles(fileRequests(log, thermometers), open, { keep: merged(wanted) });
}

/** Opens a file of a log by its name. */
export type OpenLogFile = (file: string | undefined) => FileSource | Promise<FileSource>;

/** Reads the files of a log one after the other. @throws {InputError} */
export async function readLogFiles(
  files: readonly FileRequest[],
  open: OpenLogFile,
  more: Pick<SeriesRequest, "keep" | "oneAtATime"> = {},
): Promise<Series> {
  const parts: Series[] = [];
  for (const { file, sheet, request } of files)
    parts.push(await readSeries(openLog(await open(file), sheet), { ...request, ...more }));
  if (parts.length === 1) return parts[0]!;
  return {
    logs: parts.flatMap(({ logs }) => logs),
    rows: parts.reduce((sum, { rows }) => sum + rows, 0),
    readings: parts.reduce((sum, { readings }) => sum + readings, 0),
    units: Object.assign({}, ...parts.map(({ units }) => units)) as Series["units"],
    notes: parts.flatMap(({ notes }, i) => notes.map((note) => `${files[i]!.file}: ${note}`)),
  };
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
  const series = await readSurveyLog(description, (file) => beside(path, file!));
  return { description, logs: series.logs, series };
}

/** Calibration readings, ready for `evaluateReadings(description, indications, timed)`. */
export interface ReadIndications extends StatedReadings {
  readonly notes: readonly string[];
}

/**
 * Comparison readings in order of time, from a log or from the description itself.
 *
 * @param open opens a file of the log by the name the description gives it
 * @throws {InputError} also a description with both, or with neither
 */
export async function readIndications(
  description: ReadingsDescription,
  open: OpenLogFile | undefined,
): Promise<ReadIndications> {
  if (description.rows !== undefined) {
    if (description.log !== undefined)
      refuse("rows", `${description.rows.length} rows and a log`, "rows of readings, or a log of them");
    return { ...statedReadings(description), notes: [] };
  }
  if (open === undefined)
    return refuse("log.file", undefined, "the CSV or XLSX file of the readings, beside the description, or rows in it");
  const files = fileRequests(description.log, description.channels, "channels");
  const series = await readLogFiles(files, open, { oneAtATime: true });
  const indications = series.logs
    .flatMap(({ thermometer, times, values }) =>
      Array.from(times, (time, i) => ({ time, channel: thermometer, value: values[i]! })),
    )
    .sort((a, b) => a.time - b.time);
  return { indications, timed: true, notes: series.notes };
}

/** Readings with their description. */
export interface LoadedReadings extends ReadIndications {
  readonly description: ReadingsDescription;
}

/** Reads a description of readings and the log beside it. @throws {InputError} */
export async function loadReadings(path: string): Promise<LoadedReadings> {
  const description = readDocument(readingsSchema, await readJson(path));
  const open = description.log === undefined ? undefined : (file: string | undefined) => beside(path, file!);
  return { description, ...(await readIndications(description, open)) };
}

/** Reads a certificate description. @throws {InputError} */
export const loadCertificate = async (source: FileSource): Promise<Certificate> =>
  readDocument(certificateSchema, await readJson(source));

/** Reads an immersion description. @throws {InputError} */
export const loadImmersion = async (source: FileSource): Promise<ImmersionDescription> =>
  readDocument(immersionSchema, await readJson(source));

/** How a budget's table is read: what the reader has stated of its layout and of the study. */
export interface BudgetOptions extends Partial<BudgetTableOptions> {
  readonly mapping?: StatedMapping;
}

/** A budget kept as a table, as far as it is understood, with the sheets it stands in. */
export interface LoadedBudget {
  readonly reading: BudgetTableReading;
  readonly sheets: readonly BudgetSheet[];
}

/** Reads a budget kept as a table. @throws {InputError} a file that holds no table, or no sheet of the name stated */
export async function loadBudgetTable(source: FileSource, options: BudgetOptions = {}): Promise<LoadedBudget> {
  const { mapping = {}, ...rest } = options;
  const { sheets, notes } = await openSheets(source);
  const { sheet } = mapping;
  if (sheet !== undefined && sheet !== null && sheets.every(({ name }) => name !== sheet))
    refuse(
      `${nameOf(source)}, sheet`,
      sheet,
      sheets[0]!.name === null
        ? "none: the file is one table"
        : `one of ${sheets.map(({ name }) => show(name)).join(", ")}`,
    );
  const reading = readMapped(sheets, mapping, { ...rest, otherwise: nameOf(source).replace(/\.[^.]+$/, "") });
  return {
    reading: { ...reading, remarks: [...notes, ...reading.remarks] },
    sheets: asStated(sheets, reading.mapping.turned === true),
  };
}
