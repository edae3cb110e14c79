import { copyFileSync, existsSync, rmSync } from "node:fs";
import { join } from "node:path";
import { Fault } from "../errors.ts";
import { checkAudit } from "./audit-check.ts";
import { tellAudit } from "./audit-trail.ts";
import { writeBackup } from "./backup.ts";
import { openDatabase, type Database } from "./database.ts";
import { lockTables, migrate, TABLES, unlockTables } from "./schema.ts";

export interface Restored {
  readonly runs: number;
  /** Of these, those that had not ended: a server that uses the store goes on with them, or the next that starts with it. */
  readonly unfinished: number;
  /** File with the store as it was before, or `null` if it had nothing. */
  readonly before: string | null;
}

/**
 * Puts a backup in the place of what a store has, in one transaction: a server that goes on shows the old content or the
 * new one. What was there is written to a backup of its own first.
 *
 * @throws {Fault} `no-such-file`; `bad-input`: a file that is no sound backup; `not-finished` if runs wait or go on
 */
export function restoreBackup(
  database: Database,
  folder: string,
  file: string,
  at: string,
  actor: string | null = null,
): Restored {
  if (!existsSync(file)) throw new Fault("no-such-file", `There is no file ${file}.`);
  const copy = join(folder, `restoring-${process.pid}.part`);
  try {
    copyFileSync(file, copy);
    const last = checkBackup(copy, file);
    const before = setAside(database, folder, at);
    database.exec(`ATTACH '${copy.replaceAll("'", "''")}' AS backup`);
    try {
      database.transaction(() => exchange(database, { file, last }, at, actor));
    } finally {
      database.exec("DETACH backup");
    }
    const count = (which: string): number =>
      database.get<{ n: number }>(`SELECT COUNT(*) AS n FROM runs WHERE ${which}`)!.n;
    return { runs: count("removed IS NULL"), unfinished: count("state IN ('waiting', 'running')"), before };
  } finally {
    for (const end of ["", "-wal", "-shm", "-journal"]) rmSync(`${copy}${end}`, { force: true });
  }
}

/** Brings the copy of a backup to today's schema and checks it. @returns the digest of its last entry */
function checkBackup(copy: string, file: string): string {
  const backup = openDatabase(copy);
  try {
    const [integrity] = backup.all<{ integrity_check: string }>("PRAGMA integrity_check");
    const known = backup.get("SELECT 1 FROM sqlite_schema WHERE name = 'audit'") !== undefined;
    if (integrity?.integrity_check !== "ok" || !known) throw refusal(file, integrity?.integrity_check ?? "no store");
    migrate(backup);
    const { problems, last } = checkAudit(backup, null);
    if (problems.length > 0) throw refusal(file, problems.slice(0, 3).join("; "));
    return last;
  } catch (error) {
    if (error instanceof Fault && error.code === "cannot-keep") throw refusal(file, error.message);
    throw error;
  } finally {
    backup.close();
  }
}

const refusal = (file: string, found: string): Fault =>
  new Fault("bad-input", `${file} is no sound backup of a store, and nothing was changed.`, [
    { place: file, value: found, accepted: "a file that trialband backup has written" },
  ]);

function setAside(database: Database, folder: string, at: string): string | null {
  if (database.get("SELECT 1 FROM runs") === undefined) return null;
  const place = join(folder, `before-restore-${at.replaceAll(/[:.]/g, "-")}.db`);
  return writeBackup(database, place, at).file;
}

function exchange(
  database: Database,
  { file, last }: { readonly file: string; readonly last: string },
  at: string,
  actor: string | null,
): void {
  const going = database.get<{ n: number }>("SELECT COUNT(*) AS n FROM runs WHERE state IN ('waiting', 'running')")!.n;
  if (going > 0)
    throw new Fault("not-finished", `${going} runs wait or go on: cancel them, or wait, before a backup is restored.`);
  const replaced = database.get<{ digest: string }>("SELECT digest FROM audit ORDER BY seq DESC LIMIT 1")?.digest;
  database.exec(unlockTables());
  for (const table of TABLES.toReversed()) database.exec(`DELETE FROM main.${table}`);
  for (const table of TABLES) database.exec(`INSERT INTO main.${table} SELECT * FROM backup.${table}`);
  database.exec(lockTables());
  // The replaced trail stays provable: its last digest stands in the new one.
  tellAudit(database, {
    at,
    actor,
    action: "backup restored",
    subject: null,
    detail: { file, last, replaced: replaced ?? null },
  });
}
