import { refuse, type Evidence } from "../../engine/index.ts";
import {
  evaluateSurvey,
  readDocument,
  surveySchema,
  type Series,
  type SurveyDescription,
  type SurveyEvaluation,
} from "../../models/index.ts";
import { readJson } from "./document.ts";
import { readSurveyLog } from "./load.ts";
import { watchFile, type OnRead } from "./watched-file.ts";
import { watchLog } from "./watched-log.ts";

/** A survey of a bath: its description and logs read and evaluated. */
export interface SurveyedBath {
  readonly description: SurveyDescription;
  readonly evaluation: SurveyEvaluation;
  readonly series: Series;
  /** Name and digest of every file read. */
  readonly files: Evidence["files"];
  /** What the description states of the bath, if anything. */
  readonly bath: Readonly<Record<string, unknown>> | undefined;
}

/** Reads and evaluates the survey that a description names the log of. @throws {InputError} {Fault} */
export async function surveyedBath(file: string, onRead?: OnRead): Promise<SurveyedBath> {
  const described = await watchFile(file);
  const document = await readJson(described.source);
  const description = readDocument(surveySchema, document);
  const { log } = description;
  if (log === undefined)
    return refuse("log.file", undefined, "the CSV or XLSX file of the log, beside the description");
  const logged = await watchLog(file, log, onRead);
  const series = await readSurveyLog(description, logged.open);
  const { bath } = document as { readonly bath?: Readonly<Record<string, unknown>> };
  return {
    description,
    evaluation: evaluateSurvey(description, series.logs),
    series,
    files: [described.trace(), ...logged.traces()],
    bath,
  };
}
