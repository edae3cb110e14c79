import type { SealedRecord, Study } from "../../engine/index.ts";
import type { RunHead, RunState } from "../../viewer/api/runs.ts";
import { Fault, type FaultReport } from "../errors.ts";
import { tellAudit, type Told } from "./audit-trail.ts";
import { dropCheckpoint } from "./checkpoints.ts";
import type { Database } from "./database.ts";
import type { WrittenRecord } from "../record/written.ts";
import { keepRecord, readRecord } from "./records.ts";
import { asKey, headById } from "./run-rows.ts";
import { keepKey, type StartKey } from "./start-keys.ts";
import { ownStudyFor } from "./own-studies.ts";
import { keepStudy, readStudyOf } from "./studies.ts";

/** A run that was accepted. */
export interface AcceptedRun {
  readonly id: string;
  readonly study: Study;
  /** Id of the listed study it was started from, or `null`. */
  readonly listed: string | null;
  /**
   * Otherwise the study of the laboratory's own that it is a version of, or `new` for one that begins with it; without
   * it, the one that last had a run of this title.
   */
  readonly own?: string;
  /** Greatest number of trials to come. */
  readonly limit: number;
  /** Whose turn in the queue it takes. */
  readonly requester: string;
  /** The user who asked for it, if the server knows its users. */
  readonly actor: string | null;
  /** By which the same request, sent again, is known. */
  readonly key?: StartKey;
}

/** How a run ended. */
export interface Ending {
  readonly state: Exclude<RunState, "waiting" | "running">;
  readonly trials: number;
  readonly verdict: RunHead["verdict"];
  readonly record: WrittenRecord | null;
  readonly error: FaultReport | null;
}

/** The rest of a run: read only when asked for. */
export interface RunBody {
  readonly study: Study;
  readonly record: SealedRecord | null;
  readonly error: FaultReport | null;
}

/** Writes a run that waits for its turn, with the key by which the same request is known: both or neither. */
export function acceptRun(database: Database, run: AcceptedRun, at: string): RunHead {
  return database.transaction(() => {
    if (run.key !== undefined) keepKey(database, run.actor, run.key, run.id, at);
    return insertRun(database, run, at, (digest, version) => ({
      at,
      actor: run.actor,
      action: "run accepted",
      subject: run.id,
      detail: { study: digest, version },
    }));
  });
}

/** Writes a run that waits, with the entry of the audit trail that says where it came from. */
export function insertRun(
  database: Database,
  run: AcceptedRun,
  accepted: string,
  told: (study: string, version: number) => Told,
): RunHead {
  return database.transaction(() => {
    const own = run.listed === null ? ownStudyFor(database, run.study.title, run.own ?? null, accepted) : null;
    const series = own === null ? { listed: run.listed! } : { own };
    const { digest, version } = keepStudy(database, run.study, series, accepted);
    database.run(
      `INSERT INTO runs (id, accepted, state, title, model, listed, study, version, trials, most, requester, own)
       VALUES (?, ?, 'waiting', ?, ?, ?, ?, ?, 0, ?, ?, ?)`,
      [
        run.id,
        accepted,
        JSON.stringify(run.study.title),
        JSON.stringify(run.study.model),
        run.listed === null ? null : JSON.stringify(run.listed),
        digest,
        version,
        run.limit,
        JSON.stringify(run.requester),
        own,
      ],
    );
    tellAudit(database, told(digest, version));
    return headById(database, run.id)!;
  });
}

/** Writes that a run goes on. */
export const beginRun = (database: Database, id: string): void =>
  void database.run("UPDATE runs SET state = 'running' WHERE id = ? AND state = 'waiting'", [id]);

/**
 * Writes how a run ended, with its record, and forgets its checkpoint.
 *
 * @param actor the user who cancelled it
 * @returns false if it has ended already, or is not there any more: a restore took it away
 */
export function endRun(
  database: Database,
  id: string,
  ending: Ending,
  at: string,
  actor: string | null = null,
): boolean {
  return database.transaction(() => {
    if (ending.record !== null) keepRecord(database, ending.record);
    const record = ending.record?.digest ?? null;
    const changed = database.run(
      `UPDATE runs SET state = ?, trials = ?, verdict = ?, record = ?, error = ?
       WHERE id = ? AND state IN ('waiting', 'running')`,
      [
        ending.state,
        ending.trials,
        ending.verdict === null ? null : JSON.stringify(ending.verdict),
        record,
        ending.error === null ? null : JSON.stringify(ending.error),
        id,
      ],
    );
    if (changed === 0) return false;
    dropCheckpoint(database, id);
    tellAudit(database, {
      at,
      actor,
      action: "run ended",
      subject: id,
      detail: { state: ending.state, record },
    });
    return true;
  });
}

/** What is kept of a run besides its head; `null` if there is no such run, or it was removed. @throws {Fault} it cannot be read */
export function readRun(database: Database, id: string): RunBody | null {
  const row = database.get<{ study: string; record: string | null; error: string | null }>(
    "SELECT study, record, error FROM runs WHERE id = ? AND removed IS NULL",
    [asKey(id)],
  );
  if (row === undefined) return null;
  try {
    return {
      study: readStudyOf(database, row.study),
      record: row.record === null ? null : readRecord(database, row.record),
      error: row.error === null ? null : (JSON.parse(row.error) as FaultReport),
    };
  } catch (cause) {
    if (cause instanceof Fault) throw cause;
    throw new Fault(
      "internal",
      `What is kept of run ${id} cannot be used: ${cause instanceof Error ? cause.message : String(cause)}. Restore a backup.`,
    );
  }
}
