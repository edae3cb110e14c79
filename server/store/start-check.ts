import { Fault } from "../errors.ts";
import type { Database } from "./database.ts";

/** Damages named at once. */
const MOST = 5;

/**
 * Checks a store when it is opened: every page and every reference is sound, and it can be written.
 *
 * @throws {Fault} `cannot-keep`, with what was found
 */
export function checkStore(database: Database, path: string, at: string): void {
  const damages = database
    .all<{ quick_check: string }>("PRAGMA quick_check")
    .map(({ quick_check }) => quick_check)
    .filter((found) => found !== "ok");
  const strays = database
    .all<{ table: string; parent: string }>("PRAGMA foreign_key_check")
    .map(({ table, parent }) => `a row of ${table} refers to one of ${parent} that is missing`);
  const found = [...damages, ...strays];
  if (found.length > 0) {
    throw new Fault(
      "cannot-keep",
      `The store ${path} is damaged: ${found.slice(0, MOST).join("; ")}. Restore a backup: trialband restore FILE.`,
    );
  }
  // Written, not only asked: a full disk and a read-only one are found out here, not by the first run.
  database.run("INSERT INTO meta VALUES ('opened', ?) ON CONFLICT (name) DO UPDATE SET value = excluded.value", [at]);
}
