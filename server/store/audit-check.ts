import { createHash } from "node:crypto";
import { digestOfEntry, readAudit, START, type ChainedEntry } from "./audit-trail.ts";
import { calibrationsAgainst } from "./calibrations.ts";
import type { Database } from "./database.ts";
import { headsOf, removedOf } from "./run-rows.ts";
import { namingDigest } from "./own-studies.ts";
import { readRecord } from "./records.ts";
import { readStudyOf } from "./studies.ts";

/** What a check of the audit trail found. */
export interface AuditReport {
  readonly entries: number;
  /** Digest of the last entry: noted elsewhere, it proves later that no entry up to it was taken away. */
  readonly last: string;
  readonly records: number;
  readonly studies: number;
  /** Whether an entry has the digest that was asked for; `null` if none was. */
  readonly expected: boolean | null;
  readonly problems: readonly string[];
}

/** Entries read at once. */
const PAGE = 1000;

/**
 * Checks that every entry has the digest of its content and follows the one before, and that runs, records, notes and
 * calibrations are as the trail says.
 *
 * @param expected a digest noted earlier, which the trail must still have
 */
export function checkAudit(database: Database, expected: string | null): AuditReport {
  const problems: string[] = [];
  let last = START;
  let seq = 0;
  let seen = expected === null ? null : false;
  const told = new ToldRuns();
  for (let page = readAudit(database, 1, PAGE); page.length > 0; page = readAudit(database, seq + 1, PAGE)) {
    for (const entry of page) {
      problems.push(...problemsOf(entry, seq + 1, last));
      told.take(entry);
      if (entry.digest === expected) seen = true;
      last = entry.digest;
      seq = entry.seq;
    }
  }
  if (seen === false) problems.push(`no entry has the digest ${expected}: entries were taken away or made anew`);
  problems.push(...told.against(database));
  const digests = (table: "records" | "studies"): string[] =>
    database.all<{ digest: string }>(`SELECT digest FROM ${table}`).map(({ digest }) => digest);
  const records = digests("records");
  const studies = digests("studies");
  for (const digest of records) problems.push(...failing(() => readRecord(database, digest)));
  for (const digest of studies) problems.push(...failing(() => readStudyOf(database, digest)));
  return { entries: seq, last, records: records.length, studies: studies.length, expected: seen, problems };
}

function problemsOf({ digest, ...entry }: ChainedEntry, seq: number, previous: string): string[] {
  const found: string[] = [];
  if (entry.seq !== seq) found.push(`entry ${seq} is missing; the next is ${entry.seq}`);
  if (entry.previous !== previous)
    found.push(`entry ${entry.seq} follows ${entry.previous}; expected ${previous}, the digest of the entry before`);
  const own = digestOfEntry(entry);
  if (own !== digest) found.push(`entry ${entry.seq} has the digest ${digest}; expected ${own}, that of its content`);
  return found;
}

function failing(read: () => unknown): string[] {
  try {
    read();
    return [];
  } catch (error) {
    return [error instanceof Error ? error.message : String(error)];
  }
}

interface ToldRun {
  readonly study: unknown;
  state: unknown;
  record: unknown;
  removed: boolean;
  notes: number;
}

/** What the trail says of the runs, to be held against the tables. */
class ToldRuns {
  readonly #runs = new Map<string, ToldRun>();
  /** Digest of the name and the tags, by own study. */
  readonly #named = new Map<string, unknown>();
  /** State that it had last, by calibration. */
  readonly #calibrations = new Map<string, unknown>();
  #defaults: unknown = null;

  take({ action, subject, detail }: ChainedEntry): void {
    if (action === "laboratory set") this.#defaults = detail["defaults"];
    if (subject === null) return;
    if (action === "study named") this.#named.set(subject, detail["named"]);
    if (action.startsWith("calibration ")) this.#calibrations.set(subject, detail["state"]);
    if (action === "run accepted" || action === "run taken over") {
      this.#runs.set(subject, { study: detail["study"], state: null, record: null, removed: false, notes: 0 });
      return;
    }
    const run = this.#runs.get(subject);
    if (run === undefined) return;
    if (action === "run ended") {
      run.state = detail["state"];
      run.record = detail["record"];
    }
    if (action === "run removed") run.removed = true;
    if (action === "run brought back") run.removed = false;
    if (action === "note written") run.notes += 1;
  }

  against(database: Database): string[] {
    const problems: string[] = [];
    const rows = database.all<{
      id: string;
      study: string;
      state: string;
      record: string | null;
      removed: string | null;
      notes: number;
    }>(
      `SELECT id, study, state, record, removed, (SELECT COUNT(*) FROM notes WHERE run = runs.seq) AS notes
       FROM runs ORDER BY seq`,
    );
    for (const { id, unreadable = [] } of [...headsOf(database), ...removedOf(database)])
      for (const field of unreadable) problems.push(`run ${id}: its ${field} cannot be read`);
    const there = new Set<string>();
    for (const row of rows) {
      there.add(row.id);
      const run = this.#runs.get(row.id);
      const differ = (what: string, got: unknown, expected: unknown): void => {
        if (got !== expected)
          problems.push(`run ${row.id}: ${what} is ${String(got)}; expected ${String(expected)}, as the trail says`);
      };
      if (run === undefined) {
        problems.push(`run ${row.id} is in no entry of the trail`);
        continue;
      }
      differ("the study", row.study, run.study);
      if (run.state !== null) differ("the state", row.state, run.state);
      differ("the record", row.record, run.record);
      differ("removed", row.removed !== null, run.removed);
      differ("the number of notes", row.notes, run.notes);
    }
    for (const id of this.#runs.keys()) if (!there.has(id)) problems.push(`run ${id} is missing`);
    return [...problems, ...this.#ofTheLaboratory(database), ...calibrationsAgainst(database, this.#calibrations)];
  }

  /** Names and defaults that are not those that the trail has last. */
  #ofTheLaboratory(database: Database): string[] {
    const named = database.all<{ id: string; name: string; tags: string }>(
      "SELECT id, name, tags FROM own_studies WHERE revision > 0",
    );
    const problems = named
      .filter(({ id, name, tags }) => this.#named.get(id) !== namingDigest(name, tags))
      .map(({ id }) => `study ${id}: its name and tags are not those that the trail has last`);
    const last = database.get<{ defaults: string }>("SELECT defaults FROM laboratory ORDER BY version DESC LIMIT 1");
    const digest = last === undefined ? null : createHash("sha256").update(last.defaults).digest("hex");
    if (digest !== this.#defaults) problems.push("the laboratory's defaults are not those that the trail has last");
    return problems;
  }
}
