import { createHash } from "node:crypto";
import type { Evidence, Statement } from "../../engine/index.ts";
import {
  evaluateSurvey,
  readDocument,
  surveySchema,
  type SurveyChoice,
  type SurveyDescription,
  type SurveyEvaluation,
  type ThermometerLog,
} from "../../models/index.ts";
import type { EvaluatedSurvey } from "../../viewer/api/surveys.ts";
import { citedStatements } from "../intake/survey-evidence.ts";
import { watchFile, type WatchedFile } from "../intake/watched-file.ts";
import { watchedLog } from "../intake/watched-log.ts";
import { inFile } from "../intake/in-file.ts";
import { readJson, readSurveyLog } from "../intake/index.ts";

/** A survey that was evaluated, with what a study made from it cites. */
export interface Surveyed {
  /** What a page is given. */
  readonly shown: EvaluatedSurvey;
  readonly statements: (choice: SurveyChoice) => Readonly<Record<string, Statement>>;
  readonly bath: Readonly<Record<string, unknown>> | undefined;
}

/** A survey that was evaluated, as plain data: what a thread answers with. */
export interface EvaluatedFiles extends Pick<Surveyed, "shown" | "bath"> {
  readonly description: SurveyDescription;
}

/** @throws {InputError} as `citedStatements`, of a choice */
export const surveyedFrom = ({ shown, bath, description }: EvaluatedFiles): Surveyed => ({
  shown,
  bath,
  statements: (choice) => citedStatements(shown.evaluation as SurveyEvaluation, description, shown.files, choice),
});

/** Files whose names do not distinguish them: by the beginnings of their digests. */
export const digestId = (files: Evidence["files"]): string =>
  files.map(({ sha256 }) => sha256.slice(0, DIGITS)).join("-");
const DIGITS = 16;
export const isDigestId = (id: string): boolean => /^[0-9a-f]{16}(-[0-9a-f]{16})+$/.test(id);

/** Bytes in memory as a file that is read once. */
export function watchBytes(name: string, bytes: Uint8Array): WatchedFile {
  async function* chunks(): AsyncGenerator<Uint8Array> {
    yield bytes;
  }
  return {
    source: { name, chunks: chunks() },
    trace: () => ({ name, sha256: createHash("sha256").update(bytes).digest("hex") }),
  };
}

/**
 * Evaluates a survey.
 *
 * @param id `null` for files that a person opened: their digests then name the survey
 * @param logOf opens a file of the log that the description names; `undefined` if it names none
 * @throws {Fault} `bad-input`, with file, row, column and value
 */
export async function evaluateFiles(
  id: string | null,
  described: WatchedFile,
  logOf: (file: string | undefined) => WatchedFile | Promise<WatchedFile>,
): Promise<EvaluatedFiles> {
  const name = id === null ? `${described.trace().name} and its log` : `${id}.json`;
  return inFile(name, async () => {
    const document = await readJson(described.source);
    const description = readDocument(surveySchema, document);
    const logged = watchedLog(logOf);
    const { logs, notes } = await readSurveyLog(description, logged.open);
    const evaluation = evaluateSurvey(description, logs);
    const files = [described.trace(), ...logged.traces()];
    const { positions, reference, calibrationMinutes, arrangement } = description;
    return {
      description,
      bath: (document as { bath?: Readonly<Record<string, unknown>> }).bath,
      shown: {
        id: id ?? digestId(files),
        files,
        opened: id === null,
        own: null,
        positions,
        reference,
        calibrationMinutes,
        arrangement,
        remark: description.notes ?? null,
        notes,
        worst: extremes(logs, evaluation),
        evaluation,
        statements: citedStatements(evaluation, description, files, {}),
      },
    };
  });
}

/** Where the files of a listed survey lie. */
export interface SurveyPaths {
  readonly path: string;
  /** Of each log, by the name that the description gives it. */
  readonly logs: ReadonlyMap<string, string>;
}

/** Evaluates a listed survey. @throws {Fault} as `evaluateFiles` */
export const evaluateListed = async (id: string, { path, logs }: SurveyPaths): Promise<EvaluatedFiles> =>
  evaluateFiles(id, await watchFile(path), (file) => watchFile(logs.get(file!)!));

function extremes(
  logs: readonly ThermometerLog[],
  { stay, stability: { worst } }: SurveyEvaluation,
): readonly [number, number] {
  const { times, values } = logs.find(({ thermometer }) => thermometer === stay.thermometer)!;
  let lowest = Infinity;
  let highest = -Infinity;
  for (let i = 0; i < times.length; i++) {
    if (times[i]! < worst.from || times[i]! > worst.to) continue;
    lowest = Math.min(lowest, values[i]!);
    highest = Math.max(highest, values[i]!);
  }
  return [lowest, highest];
}
