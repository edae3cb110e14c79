import type { Histogram, Problem, Quantity, RunRecord } from "../../engine/index.ts";
import type { EvaluatedSurvey, FittingStudy, SurveySummary } from "./survey/evaluated.ts";

/** A study the server knows. */
export interface StudySummary {
  readonly id: string;
  readonly title: string;
  readonly model: string;
  readonly group: string;
  readonly laboratory?: string | null;
  readonly notes?: string | null;
}

export type RunState = "waiting" | "running" | "finished" | "failed" | "cancelled";

/** A run in the list of earlier runs. */
export interface RunSummary {
  readonly id: string;
  readonly title: string;
  readonly model: string;
  readonly state: RunState;
  readonly startedAt: string;
  readonly trials: number;
  readonly limit: number;
  readonly verdict: { readonly measurand: string; readonly validated: boolean } | null;
  /** Id of the listed study it was started from. */
  readonly study?: string | null;
  /** What a person wrote beside the run. */
  readonly note?: string | null;
}

/** What went wrong, as the server tells it. */
export interface Fault {
  readonly code: string;
  readonly message: string;
  readonly problems: readonly Problem[];
}

/** One run, with its record as far as it goes. */
export interface Run {
  /** Id of the listed study it was started from. */
  readonly study?: string | null;
  readonly startedAt?: string;
  /** A record that came from a file: the server has no such run. */
  readonly file?: { readonly name: string; /** What its digests say, as a sentence. */ readonly seal: string };
  readonly id: string;
  readonly title: string;
  readonly state: RunState;
  readonly trials: number;
  readonly limit: number;
  readonly record: RunRecord | null;
  readonly error: Fault | null;
}

/** What the event stream of a run tells. */
export type RunEvent =
  | { readonly type: "progress"; readonly trials: number; readonly limit: number }
  | { readonly type: "snapshot"; readonly record: RunRecord }
  | { readonly type: "finished"; readonly record: RunRecord }
  | { readonly type: "failed"; readonly error: Fault }
  | { readonly type: "cancelled"; readonly trials: number };

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

export const listStudies = (): Promise<readonly StudySummary[]> => ask("api/studies");
export const readStudy = (id: string): Promise<Readonly<Record<string, unknown>>> =>
  ask(`api/studies/${id.split("/").map(encodeURIComponent).join("/")}`);
export const listRuns = (): Promise<readonly RunSummary[]> => ask("api/runs");
export const readRun = (id: string): Promise<Run> => ask(`api/runs/${encodeURIComponent(id)}`);
/** A model as the form needs it. A family's inputs follow from its parameters. */
export interface ModelSummary {
  readonly id: string;
  readonly title: string;
  readonly source: string | null;
  readonly family: boolean;
  /** One sentence a parameter. */
  readonly parameters?: Readonly<Record<string, string>>;
}
export interface ModelDescription {
  readonly id: string;
  readonly equation: string | null;
  readonly cautions: readonly string[];
  readonly inputs: Readonly<Record<string, Quantity>>;
  /** A study may leave these out. */
  readonly optionalInputs: Readonly<Record<string, Quantity>>;
  readonly measurands: Readonly<Record<string, Quantity>>;
}
/** A budget table as it was understood. */
export interface TableReading {
  readonly mapping: readonly {
    readonly column: string;
    readonly heading: string;
    readonly unit: string | null;
    readonly field: string | null;
  }[];
  readonly headingRow: number;
  readonly terms: readonly {
    readonly row: number;
    readonly input: string;
    readonly quantity: string;
    readonly statement: Readonly<Record<string, unknown>>;
    readonly sensitivity: number;
    readonly unit: string;
    readonly standardUncertainty: number;
    readonly assumed: readonly string[];
  }[];
  readonly summary: readonly { readonly row: number; readonly label: string }[];
  readonly combined: number;
  readonly remarks: readonly string[];
  readonly study: Readonly<Record<string, unknown>>;
}

const sent = (method: string, body: unknown): RequestInit => ({
  method,
  headers: { "content-type": "application/json" },
  body: JSON.stringify(body),
});
const keptRun = (id: string): string => `api/kept-runs/${encodeURIComponent(id)}`;

export const readRunStudy = (id: string): Promise<Readonly<Record<string, unknown>>> =>
  ask(`api/runs/${encodeURIComponent(id)}/study`);
export const removeRun = (id: string): Promise<unknown> => ask(keptRun(id), { method: "DELETE" });
export const annotateRun = (id: string, note: string): Promise<unknown> =>
  ask(`${keptRun(id)}/note`, sent("PUT", { note }));
export const checkStudy = (study: unknown): Promise<{ readonly problems: readonly Problem[] }> =>
  ask("api/studies/check", sent("POST", { study }));
export const listModels = (): Promise<readonly ModelSummary[]> => ask("api/models");
export const describeModel = (id: string, parameters: unknown): Promise<ModelDescription> =>
  ask(`api/models/${encodeURIComponent(id)}`, sent("POST", { parameters }));
export const readSchema = (): Promise<unknown> => ask("api/schema/study");
export const readRecord = (record: unknown): Promise<{ readonly record: RunRecord; readonly seal: string }> =>
  ask("api/records", sent("POST", record));
export const readTable = (
  file: File,
  columns: Readonly<Record<string, string>>,
  title: string,
): Promise<TableReading> => {
  const query = new URLSearchParams({
    name: file.name,
    title,
    columns: Object.entries(columns)
      .map((pair) => pair.join(":"))
      .join(","),
  });
  return ask(`api/budget-tables?${query.toString()}`, {
    method: "POST",
    headers: { "content-type": "application/octet-stream" },
    body: file,
  });
};
const surveyAt = (id: string): string => `api/surveys/${encodeURIComponent(id)}`;
export const listSurveys = (): Promise<readonly SurveySummary[]> => ask("api/surveys");
export const readSurvey = (id: string): Promise<EvaluatedSurvey> => ask(surveyAt(id));
export const listFittingStudies = (id: string): Promise<readonly FittingStudy[]> => ask(`${surveyAt(id)}/studies`);
/** The study with a survey's quantities in place of its own. */
export const studyFromSurvey = (
  id: string,
  study: string,
  distributions: Readonly<Record<string, string>>,
): Promise<{ readonly study: Readonly<Record<string, unknown>> }> =>
  ask(`${surveyAt(id)}/study`, sent("POST", { study, distributions }));
/** Has a description and its log evaluated: their bytes one after the other. */
export const sendSurvey = (files: readonly File[]): Promise<EvaluatedSurvey> => {
  const query = new URLSearchParams(
    files.flatMap(({ name, size }) => [
      ["name", name],
      ["size", String(size)],
    ]),
  );
  return ask(`api/surveys?${query.toString()}`, {
    method: "POST",
    headers: { "content-type": "application/octet-stream" },
    body: new Blob([...files]),
  });
};
export const startRun = (study: unknown): Promise<{ readonly id: string }> => ask("api/runs", sent("POST", { study }));
export const cancelRun = (id: string): Promise<unknown> =>
  ask(`api/runs/${encodeURIComponent(id)}`, { method: "DELETE" });
/** Coverage intervals of a finished run at a probability of the reader's choice. */
export interface ChosenInterval {
  readonly probability: number;
  readonly symmetric: readonly [number, number];
  readonly shortest: readonly [number, number];
}
const measurandOf = (id: string, measurand: string): string =>
  `api/runs/${encodeURIComponent(id)}/measurands/${encodeURIComponent(measurand)}`;
export const readInterval = (id: string, measurand: string, p: number): Promise<ChosenInterval> =>
  ask(`${measurandOf(id, measurand)}/interval?p=${p}`);
export const readHistogram = (id: string, measurand: string, bins: number): Promise<Histogram> =>
  ask(`${measurandOf(id, measurand)}/histogram?bins=${bins}`);
export const eventsOf = (id: string): string => `api/runs/${encodeURIComponent(id)}/events`;

async function ask<T>(path: string, request: RequestInit = {}): Promise<T> {
  let response: Response;
  try {
    response = await fetch(path, request);
  } catch (cause) {
    const fault: Fault = {
      code: "unreachable",
      message: "The server of this page does not answer. What is on the page stays; try again when the server runs.",
      problems: [],
    };
    throw Object.assign(new RequestError(0, fault), { cause });
  }
  if (response.status === 204) return undefined as T;
  const body: unknown = await response.json().catch(() => null);
  if (!response.ok) throw new RequestError(response.status, faultIn(body, response.status));
  return body as T;
}

function faultIn(body: unknown, status: number): Fault {
  const error = (body as { error?: Partial<Fault> } | null)?.error;
  return {
    code: error?.code ?? `http-${status}`,
    message: error?.message ?? `The server refused with status ${status} and no reason.`,
    problems: error?.problems ?? [],
  };
}
