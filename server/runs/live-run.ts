import type { RunRecord } from "../../engine/index.ts";
import type { RunEvent, RunHead } from "../../viewer/api/runs.ts";
import type { FaultReport } from "../errors.ts";
import type { WrittenRecord } from "../record/written.ts";
import type { Ending } from "../store/runs.ts";

/** A run that waits or goes on, or that has ended and could not be kept: all else is in the store alone. */
export interface LiveRun {
  head: RunHead;
  readonly abort: AbortController;
  readonly followers: Set<(event: RunEvent) => void>;
  /** Keeps at once what is gathered, for a server that stops. */
  keepNow: () => void;
  /** How it ended, while the store could not keep it. */
  ending: Ending | null;
  /** The user who cancelled it. */
  cancelledBy: string | null;
}

export const liveRun = (head: RunHead): LiveRun => ({
  head,
  abort: new AbortController(),
  followers: new Set(),
  keepNow: () => undefined,
  ending: null,
  cancelledBy: null,
});

export function tell({ followers }: LiveRun, event: RunEvent): void {
  for (const follower of followers) follower(event);
}

/** JSON of events that is at hand or was made. */
const texts = new WeakMap<RunEvent, () => string>();

/** An event's JSON, made once for all who follow; that of a finished run is put together from the JSON of its record. */
export function jsonOf(event: RunEvent): string {
  const known = texts.get(event);
  if (known !== undefined) return known();
  const json = JSON.stringify(event);
  texts.set(event, () => json);
  return json;
}

/** The event of a record that is written out: it is only read if somebody asks for it. */
export function finishedEvent({ json }: WrittenRecord, notKept: string | null): RunEvent {
  let read: RunRecord | undefined;
  let whole: string | undefined;
  const text = (): string => Buffer.from(json.buffer, json.byteOffset, json.byteLength).toString("utf8");
  const event: RunEvent = {
    type: "finished",
    get record() {
      return (read ??= JSON.parse(text()) as RunRecord);
    },
    notKept,
  };
  texts.set(event, () => (whole ??= `{"type":"finished","record":${text()},"notKept":${JSON.stringify(notKept)}}`));
  return event;
}

type EndedRun = Pick<RunHead, "state" | "trials" | "notKept"> & {
  readonly record: RunRecord | null;
  readonly error: FaultReport | null;
};

/** The event that a run's readers get last. */
export function lastEvent({ state, trials, notKept, record, error }: EndedRun): RunEvent {
  switch (state) {
    case "finished":
      return { type: "finished", record: record!, notKept };
    case "cancelled":
      return { type: "cancelled", trials, notKept };
    default:
      return { type: "failed", error: error!, notKept };
  }
}

/** The verdict at a glance: of the first measurand that is not validated, that the trials do not decide, or of the first. */
export function verdictOf(record: RunRecord): RunHead["verdict"] {
  const all = Object.entries(record.measurands).map(([measurand, { validation }]) => ({
    measurand,
    validated: validation.validated,
    firm: validation.firm,
    ...(validation.nothingVaries === true ? { nothingVaries: true as const } : {}),
  }));
  return all.find(({ validated, firm }) => !validated && firm) ?? all.find(({ firm }) => !firm) ?? all[0] ?? null;
}

export const hasEnded = ({ state }: RunHead): boolean => state !== "waiting" && state !== "running";
