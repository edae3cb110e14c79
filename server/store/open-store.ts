import { chmodSync, closeSync, existsSync, mkdirSync, openSync } from "node:fs";
import { join } from "node:path";
import { Fault } from "../errors.ts";
import { checkAudit } from "./audit-check.ts";
import { lastEntries, tellAudit } from "./audit-trail.ts";
import { writeBackup } from "./backup.ts";
import { dropCheckpoint, readCheckpoint, writeCheckpoint, writePieces } from "./checkpoints.ts";
import { openDatabase, type Database } from "./database.ts";
import { openDesk } from "./desk.ts";
import { evidenceStore } from "./evidence.ts";
import { writeNote } from "./notes.ts";
import { bringBackRun, removeRun } from "./removal.ts";
import { restoreBackup } from "./restore.ts";
import { headById, headsOf, removedOf, unfinishedOf } from "./run-rows.ts";
import { acceptRun, beginRun, endRun, readRun } from "./runs.ts";
import { migrate } from "./schema.ts";
import { checkStore } from "./start-check.ts";
import { startedBy } from "./start-keys.ts";
import type { Store } from "./store.ts";
import { takeOver } from "./takeover.ts";

export interface StoreOptions {
  /** Folder of the store; `null` keeps it in memory. */
  readonly folder: string | null;
  /** Called for each thing that a person should know: what was taken over, and what could not be. */
  readonly warn?: (message: string) => void;
  /** Another clock, for tests. */
  readonly now?: () => Date;
  /** Pages the file may have at most, for tests of a full disk. */
  readonly pages?: number;
}

const FILE = "trialband.db";

/**
 * Opens a store, makes it if there is none, takes over what an older version kept in its folder, and checks it.
 *
 * @throws {Fault} `cannot-keep`: a store that is damaged, cannot be written or is of a later version
 */
export function openStore({ folder, warn = () => undefined, now = () => new Date(), pages }: StoreOptions): Store {
  const path = folder === null ? ":memory:" : placeIn(folder);
  const database = openDatabase(path);
  const at = (): string => now().toISOString();
  try {
    setUp(database, path, folder, at, warn);
  } catch (error) {
    database.close();
    throw error;
  }
  // The number changes with what other connections write, and with nothing else (SQLite, PRAGMA data_version).
  const version = (): number => database.get<{ data_version: number }>("PRAGMA data_version")!.data_version;
  let seen = version();
  if (pages !== undefined) database.exec(`PRAGMA max_page_count = ${pages}`);
  return {
    heads: () => headsOf(database),
    head: (id) => headById(database, id),
    read: (id) => readRun(database, id),
    unfinished: () => unfinishedOf(database),
    accept: (run) => acceptRun(database, run, at()),
    startedBy: (actor, key) => startedBy(database, actor, key, at()),
    begin: (id) => beginRun(database, id),
    end: (id, ending, actor = null) => endRun(database, id, ending, at(), actor),
    annotate: (id, text, expected, actor = null) => writeNote(database, id, text, expected, at(), actor),
    remove: (id, actor = null) => removeRun(database, id, at(), actor),
    bringBack: (id, actor = null) => bringBackRun(database, id, at(), actor),
    writePieces: (id, pieces) => writePieces(database, id, pieces),
    writeCheckpoint: (id, checkpoint, dropped) => writeCheckpoint(database, id, checkpoint, dropped),
    readCheckpoint: (id) => readCheckpoint(database, id),
    dropCheckpoint: (id) => dropCheckpoint(database, id),
    removed: () => removedOf(database),
    trail: (most) => lastEntries(database, most),
    desk: openDesk(database, at),
    audit: (expected = null) => checkAudit(database, expected),
    backup: (file) => writeBackup(database, file, at()),
    evidence: evidenceStore(database, at),
    restore: (file) => restoreBackup(database, folder ?? ".", file, at()),
    changedElsewhere() {
      const before = seen;
      seen = version();
      return seen !== before;
    },
    close() {
      try {
        // One file holds everything then: it can be copied like any other.
        database.all("PRAGMA wal_checkpoint(TRUNCATE)");
      } catch {
        // On a full disk it stays in the log beside the file, which the next start reads.
      }
      database.close();
    },
  };
}

/** The store's file, made for its owner alone; the database gives the files beside it the same rights. */
function placeIn(folder: string): string {
  const path = join(folder, FILE);
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    closeSync(openSync(path, "a", 0o600));
    chmodSync(path, 0o600);
  } catch (error) {
    throw new Fault(
      "cannot-keep",
      `The store ${path} cannot be written: ${error instanceof Error ? error.message : String(error)}`,
    );
  }
  return path;
}

function setUp(
  database: Database,
  path: string,
  folder: string | null,
  at: () => string,
  warn: (message: string) => void,
): void {
  // Space that checkpoints leave is used again, and given back from time to time. Only a new file takes this.
  database.exec("PRAGMA auto_vacuum = INCREMENTAL");
  database.get("PRAGMA journal_mode = WAL");
  // What was acknowledged survives a power cut too, not only the end of the process.
  database.exec("PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON");
  database.transaction(() => {
    const isNew = database.get<{ user_version: number }>("PRAGMA user_version")!.user_version === 0;
    migrate(database);
    if (!isNew) return;
    tellAudit(database, { at: at(), actor: null, action: "store made", subject: null, detail: {} });
    const taken = folder === null ? null : takeOver(database, folder, at());
    if (taken === null) return;
    for (const message of taken.leftOut) warn(message);
    warn(`${taken.runs} runs were taken over from ${taken.folder}, which is no longer used and was left as it is.`);
  });
  checkStore(database, path, at());
  database.all("PRAGMA incremental_vacuum");
}

/** Whether a folder has a store. */
export const hasStore = (folder: string): boolean => existsSync(join(folder, FILE));
