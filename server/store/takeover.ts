import { writtenRecord } from "../record/written.ts";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { SealedRecord, Study } from "../../engine/index.ts";
import type { RunHead } from "../../viewer/api/runs.ts";
import type { FaultReport } from "../errors.ts";
import type { Database } from "./database.ts";
import { parseKept } from "./kept-json.ts";
import { writeNote } from "./notes.ts";
import { endRun, insertRun } from "./runs.ts";

/** A run as versions up to 0.3 kept it: one JSON file a run, in the folder `runs`. */
interface FiledRun {
  readonly head: Pick<RunHead, "id" | "startedAt" | "state" | "trials" | "limit" | "verdict" | "study" | "note">;
  readonly body: {
    readonly loaded: { readonly study: Study };
    readonly record: SealedRecord | null;
    readonly error: FaultReport | null;
  };
}

export interface TakenOver {
  readonly folder: string;
  readonly runs: number;
  /** Why a file was left out, each. */
  readonly leftOut: readonly string[];
}

/**
 * Takes the runs of an older version into a new store, all in one transaction. The files stay as they are. A run that
 * had not ended waits for its turn again.
 *
 * @returns `null` if there is no such folder
 */
export function takeOver(database: Database, folder: string, at: string): TakenOver | null {
  const place = join(folder, "runs");
  if (!existsSync(place)) return null;
  const leftOut: string[] = [];
  const found: FiledRun[] = [];
  for (const name of readdirSync(place)) {
    // What a server was writing when it was stopped lies beside, under a name with a dot.
    if (!name.endsWith(".json") || name.startsWith(".")) continue;
    try {
      found.push(readFiled(join(place, name), name));
    } catch (error) {
      leftOut.push(`${join(place, name)} is left out: ${error instanceof Error ? error.message : String(error)}`);
    }
  }
  found.sort((a, b) => (a.head.startedAt < b.head.startedAt ? -1 : a.head.startedAt > b.head.startedAt ? 1 : 0));
  let runs = 0;
  database.transaction(() => {
    for (const run of found) {
      takeIn(database, run, at);
      runs += 1;
    }
  });
  return { folder: place, runs, leftOut };
}

function readFiled(path: string, name: string): FiledRun {
  const run = parseKept(readFileSync(path), name) as Partial<FiledRun> | null;
  const { id, startedAt, state } = run?.head ?? {};
  const study: Partial<Study> | undefined = run?.body?.loaded?.study;
  if (typeof id !== "string" || typeof startedAt !== "string" || typeof study?.title !== "string")
    throw new Error("it is no run");
  // A file copied under another name would be the same run twice.
  if (`${id}.json` !== name) throw new Error(`it holds the run ${id}, whose file is ${id}.json`);
  if (state === "finished" && (run!.body!.record ?? null) === null) throw new Error("it has no record");
  return run as FiledRun;
}

function takeIn(database: Database, { head, body }: FiledRun, at: string): void {
  const { id, state, trials, limit, verdict, note } = head;
  const { study } = body.loaded;
  const listed = head.study ?? null;
  insertRun(database, { id, study, listed, limit, requester: "", actor: null }, head.startedAt, (digest, version) => ({
    at,
    actor: null,
    action: "run taken over",
    subject: id,
    detail: { study: digest, version },
  }));
  if (state === "waiting" || state === "running") return;
  const record = state === "finished" ? writtenRecord(body.record!) : null;
  endRun(database, id, { state, trials, verdict: verdict ?? null, record, error: body.error ?? null }, at);
  if (typeof note === "string") writeNote(database, id, note, null, at, null);
}
