import { existsSync, fsyncSync, openSync, closeSync, renameSync, rmSync, statSync } from "node:fs";
import { dirname, resolve } from "node:path";
import { Fault } from "../errors.ts";
import { tellAudit } from "./audit-trail.ts";
import { openDatabase, type Database } from "./database.ts";

export interface Backup {
  readonly file: string;
  readonly bytes: number;
  readonly runs: number;
}

/**
 * Writes the store as it is at one moment into a file of its own, while a server goes on: beside its place, checked,
 * synced, then renamed into it.
 *
 * @throws {Fault} `cannot-write`: a file that exists, or cannot be written
 */
export function writeBackup(database: Database, file: string, at: string, actor: string | null = null): Backup {
  const place = resolve(file);
  if (existsSync(place)) throw new Fault("cannot-write", `${place} exists already and was not changed.`);
  const part = `${place}.part`;
  try {
    // The copy has the entry that records it.
    tellAudit(database, { at, actor, action: "backup made", subject: null, detail: { file: place } });
    rmSync(part, { force: true });
    // An empty file is filled, and keeps its rights: its owner's alone.
    closeSync(openSync(part, "wx", 0o600));
    database.run("VACUUM INTO ?", [part]);
    const runs = checkCopy(part);
    sync(part);
    renameSync(part, place);
    sync(dirname(place));
    return { file: place, bytes: statSync(place).size, runs };
  } catch (error) {
    rmSync(part, { force: true });
    const message = error instanceof Error ? error.message : String(error);
    throw new Fault("cannot-write", `The backup ${place} could not be written: ${message}`);
  }
}

/** @returns how many runs a copy has */
function checkCopy(path: string): number {
  const copy = openDatabase(path);
  try {
    const found = copy.all<{ integrity_check: string }>("PRAGMA integrity_check");
    if (found[0]?.integrity_check !== "ok") throw new Error(`the copy is damaged: ${found[0]?.integrity_check}`);
    return copy.get<{ n: number }>("SELECT COUNT(*) AS n FROM runs WHERE removed IS NULL")!.n;
  } finally {
    copy.close();
  }
}

function sync(path: string): void {
  const descriptor = openSync(path, "r");
  try {
    fsyncSync(descriptor);
  } finally {
    closeSync(descriptor);
  }
}
