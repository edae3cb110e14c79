import { mkdtempSync, readdirSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { SealedRecord, Study } from "../../../engine/index.ts";
import { writtenRecord } from "../../../server/record/written.ts";
import type { Ending } from "../../../server/store/runs.ts";
import type { Store } from "../../../server/store/store.ts";

/** A store as version 0.3 left it: two finished runs, one cancelled, one that was going on when the server was stopped. */
export const FOLDER_0_3 = join(import.meta.dirname, "folder-0.3");

interface Filed {
  readonly head: { readonly id: string; readonly title: string; readonly note: string | null; readonly state: string };
  readonly body: { readonly loaded: { readonly study: Study }; readonly record: SealedRecord | null };
}

export const filedRuns = (): Filed[] =>
  readdirSync(join(FOLDER_0_3, "runs"))
    .map((name) => JSON.parse(readFileSync(join(FOLDER_0_3, "runs", name), "utf8")) as Filed)
    .toSorted((a, b) => a.head.id.localeCompare(b.head.id));

/** A record that a server made. */
export const aRecord = (): SealedRecord => filedRuns().find(({ body }) => body.record !== null)!.body.record!;

export const aStudy = (change: Partial<Study> = {}): Study => ({ ...aRecord().study, ...change });

export const emptyFolder = (): string => mkdtempSync(join(tmpdir(), "trialband-store-"));

let next = 0;

/** Accepts a run and returns its id. */
export function accepted(store: Store, study: Study = aStudy(), listed: string | null = null): string {
  next += 1;
  const id = `run-${next}`;
  return store.accept({ id, study, listed, limit: 20_000, requester: "", actor: null }).id;
}

export const FINISHED: Ending = {
  state: "finished",
  trials: 20_000,
  verdict: { measurand: "error", validated: false },
  record: writtenRecord(aRecord()),
  error: null,
};

/** Accepts a run and brings it to its end. */
export function finished(store: Store, study: Study = aStudy(), listed: string | null = null): string {
  const id = accepted(store, study, listed);
  store.begin(id);
  store.end(id, FINISHED);
  return id;
}
