import type { Histogram, Problem, RunRecord } from "../engine/index.ts";

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
}

/** What went wrong, as the server tells it. */
export interface Fault {
  readonly code: string;
  readonly message: string;
  readonly problems: readonly Problem[];
}

/** One run, with its record as far as it goes. */
export interface Run {
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
export const startRun = (study: unknown): Promise<{ readonly id: string }> =>
  ask("api/runs", {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({ study }),
  });
export const cancelRun = (id: string): Promise<unknown> => ask(`api/runs/${encodeURIComponent(id)}`, { method: "DELETE" });
/** Coverage intervals of a finished run at a probability of the reader's choice. */
export interface ChosenInterval {
  readonly probability: number;
  readonly symmetric: readonly [number, number];
  readonly shortest: readonly [number, number];
}
const measurandOf = (id: string, measurand: string): string => `api/runs/${encodeURIComponent(id)}/measurands/${encodeURIComponent(measurand)}`;
export const readInterval = (id: string, measurand: string, p: number): Promise<ChosenInterval> => ask(`${measurandOf(id, measurand)}/interval?p=${p}`);
export const readHistogram = (id: string, measurand: string, bins: number): Promise<Histogram> => ask(`${measurandOf(id, measurand)}/histogram?bins=${bins}`);
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
