import { words } from "./language.ts";
import { fillText } from "../present/fill.ts";
import type {
  ChangedEvidence,
  EvidenceList,
  KeptFile,
  LogLookRequest,
  LogLooks,
  LogSeries,
  LogSeriesRequest,
  NewEvidence,
  EvidenceBehind,
  OwnEvidence,
  SavedEvidence,
} from "../api/evidence.ts";
import type { ConfirmationRequest, OpenedOutlook, OutlookKind, PlanConfirmation } from "../api/outlooks.ts";
import type { CalibrationFound, CalibrationResultRequest, PreparedCalibration } from "../api/calibrations.ts";
import type { WatchedLogList } from "../api/watched-logs.ts";
import type { About } from "../api/about.ts";
import type { QueueAnswer } from "../api/queue.ts";
import type { Histogram } from "../../engine/index.ts";
import type { Session } from "../api/access.ts";
import type { StatedMapping, TableReading } from "../api/budget-tables.ts";
import type {
  EvaluatedEvidence,
  EvidenceEvaluationRequest,
  EvidenceInputs,
  EvidenceStudy,
  EvidenceStudyRequest,
  OpenedEvidence,
} from "../api/evidence-evaluation.ts";
import type { EquationAnswer, EquationRequest, FunctionList } from "../api/equations.ts";
import type { ExplorationAnswer, ExplorationRequest } from "../api/explorations.ts";
import type { Fault, Refusal } from "../api/fault.ts";
import type { Draft, DraftHead, DraftList, DraftSent } from "../api/drafts.ts";
import type { Laboratory, LaboratoryDefaults } from "../api/laboratory.ts";
import type { ChosenInterval } from "../api/measurands.ts";
import type { ModelDescription, ModelList, ModelRequest } from "../api/models.ts";
import type { NamingRequest, OwnStudy, OwnStudyList } from "../api/own-studies.ts";
import type { ShownRecord } from "../api/records.ts";
import type { NoteRequest, RemovedRun, Run, RunHead, RunList, RunRequest, StartedRun } from "../api/runs.ts";
import type { StudyCheck, StudyCheckRequest, StudyList } from "../api/studies.ts";
import type { TemplateList } from "../api/templates.ts";
import type { ToleranceLimits, ToleranceRequest } from "../api/tolerances.ts";
import type { EvaluatedSurvey, FittingStudies, SurveyList, SurveyStudy, SurveyStudyRequest } from "../api/surveys.ts";

/** The server answered with an error (`status` as in HTTP), or did not answer at all (`status` 0). */
export class RequestError extends Error {
  readonly status: number;
  readonly fault: Fault;

  constructor(status: number, fault: Fault) {
    super(fault.message);
    this.name = "RequestError";
    this.status = status;
    this.fault = fault;
  }
}

export const listStudies = (): Promise<StudyList> => ask("api/studies");
export const readStudy = (id: string): Promise<Readonly<Record<string, unknown>>> =>
  ask(`api/studies/${id.split("/").map(encodeURIComponent).join("/")}`);
/** Heard on the window when the server asks the reader to sign in again. */
export const SIGNED_OUT = "trialband-signed-out";
export const readSession = (): Promise<Session> => ask("api/session");
export const signOut = (): Promise<unknown> => ask("api/session", { method: "DELETE" });
export const listRemovedRuns = (): Promise<readonly RemovedRun[]> => ask("api/removed-runs");
export const listRuns = (): Promise<RunList> => ask("api/runs");
export const readRun = (id: string): Promise<Run> => ask(`api/runs/${encodeURIComponent(id)}`);
export const sent = (method: string, body: unknown) => ({
  method,
  headers: { "content-type": "application/json" },
  body: JSON.stringify(body),
});
const keptRun = (id: string): string => `api/kept-runs/${encodeURIComponent(id)}`;

export const readRunStudy = (id: string): Promise<Readonly<Record<string, unknown>>> =>
  ask(`api/runs/${encodeURIComponent(id)}/study`);
export const removeRun = (id: string): Promise<unknown> => ask(keptRun(id), { method: "DELETE" });
export const bringBackRun = (id: string): Promise<RunHead> => ask(`${keptRun(id)}/undo-removal`, { method: "POST" });
/** @param seen the version of the note that the reader has before them; one written meanwhile is not written over */
export const annotateRun = (id: string, note: string, seen: number): Promise<RunHead> => {
  const { headers, ...request } = sent("PUT", { note } satisfies NoteRequest);
  return ask(`${keptRun(id)}/note`, { ...request, headers: { ...headers, "if-match": `"${seen}"` } });
};
export const checkStudy = (study: unknown): Promise<StudyCheck> =>
  ask("api/studies/check", sent("POST", { study } satisfies StudyCheckRequest));
/** A quick look at a study, which keeps nothing. */
export const exploreStudy = (
  study: unknown,
  points: NonNullable<ExplorationRequest["points"]>,
): Promise<ExplorationAnswer> => ask("api/explorations", sent("POST", { study, points } satisfies ExplorationRequest));
export const listModels = (): Promise<ModelList> => ask("api/models");
export const describeModel = (
  id: string,
  parameters: NonNullable<ModelRequest["parameters"]>,
): Promise<ModelDescription> =>
  ask(`api/models/${encodeURIComponent(id)}`, sent("POST", { parameters } satisfies ModelRequest));
export const checkEquation = (equation: EquationRequest): Promise<EquationAnswer> =>
  ask("api/equations", sent("POST", equation));
export const listEquationFunctions = (): Promise<FunctionList> => ask("api/equations/functions");
export const readSchema = (): Promise<unknown> => ask("api/schema/study");
export const readRecord = (record: unknown): Promise<ShownRecord> => ask("api/records", sent("POST", record));
/** Has a budget table read by what the reader has stated of it: its statements and its bytes, one after the other. */
export const readTable = (
  file: File,
  stated: StatedMapping,
  describing: Readonly<Record<"title" | "symbol" | "meaning" | "unit", string>>,
): Promise<TableReading> => {
  const mapping = new Blob([JSON.stringify(stated)]);
  const query = new URLSearchParams({ name: file.name, mapping: String(mapping.size), ...describing });
  return ask(`api/budget-tables?${query.toString()}`, {
    method: "POST",
    headers: { "content-type": "application/octet-stream" },
    body: new Blob([mapping, file]),
  });
};
export const readTolerance = (request: ToleranceRequest): Promise<ToleranceLimits> =>
  ask("api/tolerances", sent("POST", request));
export const listTemplates = (): Promise<TemplateList> => ask("api/templates");
/** Where a template is downloaded from. */
export const templateAt = (file: string): string => `api/templates/${encodeURIComponent(file)}`;
const evidenceAt = (id: string): string => `api/evidence/${encodeURIComponent(id)}`;
export const listEvidence = (): Promise<EvidenceList> => ask("api/evidence");
export const readEvidence = (id: string): Promise<OwnEvidence> => ask(evidenceAt(id));
export const readEvidenceVersion = (id: string, version: number): Promise<SavedEvidence> =>
  ask(`${evidenceAt(id)}/versions/${version}`);
export const findEvidenceBehind = (digests: readonly string[]): Promise<EvidenceBehind> =>
  ask(`api/evidence-behind?${digests.map((sha256) => `sha256=${sha256}`).join("&")}`);
export const createEvidence = (evidence: NewEvidence): Promise<OwnEvidence> =>
  ask("api/evidence", sent("POST", evidence));
export const changeEvidence = (id: string, change: ChangedEvidence): Promise<OwnEvidence> =>
  ask(evidenceAt(id), sent("PUT", change));
export const removeEvidence = (id: string): Promise<unknown> => ask(evidenceAt(id), { method: "DELETE" });
export const undoEvidenceRemoval = (id: string): Promise<OwnEvidence> =>
  ask(`${evidenceAt(id)}/undo-removal`, { method: "POST" });
/** Keeps a file of a log on the server. */
export const keepFile = (file: File): Promise<KeptFile> =>
  ask(`api/evidence-files?${new URLSearchParams({ name: file.name }).toString()}`, {
    method: "POST",
    headers: { "content-type": "application/octet-stream" },
    body: file,
  });
export const lookAtLogs = (request: LogLookRequest): Promise<LogLooks> => ask("api/log-looks", sent("POST", request));
export const readLogSeries = (request: LogSeriesRequest): Promise<LogSeries> =>
  ask("api/log-series", sent("POST", request));
export const evaluateEvidence = (request: EvidenceEvaluationRequest): Promise<EvaluatedEvidence> =>
  ask("api/evidence-evaluations", sent("POST", request));
/** Reads a file that the command line takes as the draft of a form. */
export const openEvidenceFile = (file: File): Promise<OpenedEvidence> =>
  ask(`api/evidence-openings?${new URLSearchParams({ name: file.name }).toString()}`, {
    method: "POST",
    headers: { "content-type": "application/octet-stream" },
    body: file,
  });
export const listEvidenceInputs = (study: string): Promise<EvidenceInputs> =>
  ask(`api/evidence-inputs?${new URLSearchParams({ study }).toString()}`);
/** The study with the quantities of evidence in the inputs that the reader chose. */
export const studyFromEvidence = (id: string, request: EvidenceStudyRequest): Promise<EvidenceStudy> =>
  ask(`${evidenceAt(id)}/study`, sent("POST", request));
export const readAbout = (): Promise<About> => ask("api/about");
export const readQueue = (): Promise<QueueAnswer> => ask("api/queue");
export const listWatchedLogs = (): Promise<WatchedLogList> => ask("api/watched-logs");
/** Where the events of a log that grows come from. */
export const eventsOfLog = (id: string, query: string): string =>
  `api/watched-logs/${encodeURIComponent(id)}/events?${query}`;
const surveyAt = (id: string): string => `api/surveys/${encodeURIComponent(id)}`;
export const listSurveys = (): Promise<SurveyList> => ask("api/surveys");
export const readSurvey = (id: string): Promise<EvaluatedSurvey> => ask(surveyAt(id));
export const listFittingStudies = (id: string): Promise<FittingStudies> => ask(`${surveyAt(id)}/studies`);
/** The study with a survey's quantities in place of its own. */
export const studyFromSurvey = (id: string, request: SurveyStudyRequest): Promise<SurveyStudy> =>
  ask(`${surveyAt(id)}/study`, sent("POST", request));
/** Sends files: a name and a size for each in the query, their bytes one after the other. */
const sendFiles = <Answer>(to: string, files: readonly File[]): Promise<Answer> => {
  const query = new URLSearchParams(
    files.flatMap(({ name, size }) => [
      ["name", name],
      ["size", String(size)],
    ]),
  );
  return ask(`${to}?${query.toString()}`, {
    method: "POST",
    headers: { "content-type": "application/octet-stream" },
    body: new Blob([...files]),
  });
};
/** Has a description and its log evaluated. */
export const sendSurvey = (files: readonly File[]): Promise<EvaluatedSurvey> => sendFiles("api/surveys", files);
/** Has a calibration read with the files that it names. */
export const sendCalibration = (files: readonly File[]): Promise<PreparedCalibration> =>
  sendFiles("api/calibrations", files);
/** Has a plan, a history or a comparison evaluated with the files that it names. */
export const sendOutlook = (files: readonly File[]): Promise<OpenedOutlook> => sendFiles("api/outlooks", files);
export const exampleOutlook = (kind: OutlookKind): Promise<OpenedOutlook> => ask(`api/outlooks/examples/${kind}`);
export const confirmPlan = (request: ConfirmationRequest): Promise<PlanConfirmation> =>
  ask("api/outlooks/confirmation", sent("POST", request));
export const exampleCalibration = (): Promise<PreparedCalibration> => ask("api/calibrations/example");
export const calibrationFound = (request: CalibrationResultRequest): Promise<CalibrationFound> =>
  ask("api/calibrations/result", sent("POST", request));
/** The start whose answer did not arrive: whether it was accepted is not known. */
let unanswered: { readonly body: string; readonly key: string } | null = null;

/**
 * Starts a run. The same start, asked for again since the answer was lost, has the same key: if the server had accepted it,
 * it answers with that run and starts no second one.
 *
 * @param own the own study that it is a version of, or `new` for one that begins with it
 */
export async function startRun(study: unknown, own?: string): Promise<StartedRun> {
  const request = sent("POST", { study, ...(own === undefined ? {} : { own }) } satisfies RunRequest);
  const { body, headers } = request;
  const key = unanswered?.body === body ? unanswered.key : newKey();
  unanswered = { body, key };
  try {
    const started = await ask<StartedRun>("api/runs", {
      ...request,
      headers: { ...headers, "idempotency-key": `"${key}"` },
    });
    unanswered = null;
    return started;
  } catch (error) {
    // A refusal is an answer, unless it came from a proxy whose server was silent (502, 504).
    if (error instanceof RequestError && ![0, 502, 504].includes(error.status)) unanswered = null;
    throw error;
  }
}

/** 128 random bits; randomUUID is not there on a page that came without encryption. */
const newKey = (): string =>
  Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16).padStart(2, "0")).join("");
export const listOwnStudies = (): Promise<OwnStudyList> => ask("api/own-studies");
/** A change of what has versions; one that was made meanwhile is not written over. @param seen `null` writes over any */
const changed = (body: unknown, seen: number | null): RequestInit => {
  const { headers, ...request } = sent("PUT", body);
  return { ...request, headers: { ...headers, "if-match": seen === null ? "*" : `"${seen}"` } };
};
export const nameOwnStudy = (id: string, naming: NamingRequest, seen: number): Promise<OwnStudy> =>
  ask(`api/own-studies/${encodeURIComponent(id)}/name`, changed(naming, seen));
const draftAt = (id: string): string => `api/drafts/${encodeURIComponent(id)}`;
export const listDrafts = (): Promise<DraftList> => ask("api/drafts");
export const readDraft = (id: string): Promise<Draft> => ask(draftAt(id));
export const writeDraft = (id: string, draft: DraftSent, seen: number | null): Promise<DraftHead> =>
  ask(draftAt(id), changed(draft, seen));
export const discardDraft = (id: string): Promise<unknown> => ask(draftAt(id), { method: "DELETE" });
export const undoDiscarding = (id: string): Promise<DraftHead> =>
  ask(`${draftAt(id)}/undo-discarding`, { method: "POST" });
export const readLaboratory = (): Promise<Laboratory> => ask("api/laboratory");
export const setLaboratory = (defaults: LaboratoryDefaults, seen: number): Promise<Laboratory> =>
  ask("api/laboratory", changed(defaults, seen));
export const cancelRun = (id: string): Promise<unknown> =>
  ask(`api/runs/${encodeURIComponent(id)}`, { method: "DELETE" });
const measurandOf = (id: string, measurand: string): string =>
  `api/runs/${encodeURIComponent(id)}/measurands/${encodeURIComponent(measurand)}`;
export const readInterval = (id: string, measurand: string, p: number): Promise<ChosenInterval> =>
  ask(`${measurandOf(id, measurand)}/interval?p=${p}`);
export const readHistogram = (id: string, measurand: string, bins: number): Promise<Histogram> =>
  ask(`${measurandOf(id, measurand)}/histogram?bins=${bins}`);
export const eventsOf = (id: string): string => `api/runs/${encodeURIComponent(id)}/events`;

export async function ask<T>(path: string, request: RequestInit = {}): Promise<T> {
  const response = await reached(path, request);
  if (response.status === 204) return undefined as T;
  const body: unknown = await response.json().catch(() => null);
  if (response.status === 401) dispatchEvent(new Event(SIGNED_OUT));
  if (!response.ok) throw new RequestError(response.status, faultIn(body, response.status));
  return body as T;
}

async function reached(path: string, request: RequestInit): Promise<Response> {
  try {
    return await fetch(path, request);
  } catch (cause) {
    throw Object.assign(new RequestError(0, unreachable()), { cause });
  }
}

/** A file that the server makes of what it is sent. @throws {RequestError} */
export async function fileOf(path: string, body: unknown): Promise<Blob> {
  const response = await reached(path, sent("POST", body));
  if (response.ok) return response.blob();
  if (response.status === 401) dispatchEvent(new Event(SIGNED_OUT));
  throw new RequestError(response.status, faultIn(await response.json().catch(() => null), response.status));
}

/** A file that the server makes of a record's file. @returns with how many files of evidence are not in it */
export async function askFile(
  path: string,
  record: string,
): Promise<{ readonly blob: Blob; readonly missing: number }> {
  const response = await fetch(path, {
    method: "POST",
    headers: { "content-type": "application/octet-stream" },
    body: record,
  }).catch((cause: unknown) => {
    throw Object.assign(new RequestError(0, unreachable()), { cause });
  });
  if (response.status === 401) dispatchEvent(new Event(SIGNED_OUT));
  if (!response.ok)
    throw new RequestError(response.status, faultIn(await response.json().catch(() => null), response.status));
  return { blob: await response.blob(), missing: Number(response.headers.get("x-missing-evidence") ?? 0) };
}

const unreachable = (): Fault => ({ code: "unreachable", message: words.frame.noServer, problems: [] });

/** The fault in an answer that refuses, given by any server: one between this page and Trialband gives no problem. */
export function faultIn(body: unknown, status: number): Fault {
  const { code, detail, problems } = (body ?? {}) as Partial<Refusal>;
  return {
    code: code ?? `http-${status}`,
    message: detail ?? fillText(words.frame.refused, { status: String(status) }),
    problems: problems ?? [],
  };
}
