import { digestOf } from "../canonical.ts";
import type { Database } from "./database.ts";

/** What the audit trail records. */
export type Action =
  | "store made"
  | "run taken over"
  | "run accepted"
  | "run ended"
  | "run removed"
  | "run brought back"
  | "note written"
  | "study named"
  | "laboratory set"
  | "evidence saved"
  | "evidence removed"
  | "evidence brought back"
  | "calibration kept"
  | "calibration changed"
  | "calibration run"
  | "calibration named"
  | "calibration removed"
  | "calibration brought back"
  | "backup made"
  | "backup restored";

/** An entry, as its digest covers it. */
export interface AuditEntry {
  readonly seq: number;
  readonly at: string;
  /** Who asked, if the server knows its users. */
  readonly actor: string | null;
  readonly action: string;
  /** Id of the run, the own study or the calibration, if the entry is about one. */
  readonly subject: string | null;
  readonly detail: Readonly<Record<string, unknown>>;
  /** Digest of the entry before; of the first, `START`. */
  readonly previous: string;
}

export interface ChainedEntry extends AuditEntry {
  readonly digest: string;
}

/** What the first entry follows. */
export const START = "0".repeat(64);

export interface Told {
  readonly at: string;
  readonly actor: string | null;
  readonly action: Action;
  readonly subject: string | null;
  readonly detail: Readonly<Record<string, unknown>>;
}

/** Adds an entry behind the last. Its digest covers its content and the digest before, so that none can be changed alone. */
export function tellAudit(database: Database, told: Told): ChainedEntry {
  return database.transaction(() => {
    const last = database.get<{ seq: number; digest: string }>(
      "SELECT seq, digest FROM audit ORDER BY seq DESC LIMIT 1",
    );
    const entry: AuditEntry = { seq: (last?.seq ?? 0) + 1, ...told, previous: last?.digest ?? START };
    const digest = digestOfEntry(entry);
    database.run("INSERT INTO audit VALUES (?, ?, ?, ?, ?, ?, ?, ?)", [
      entry.seq,
      entry.at,
      entry.actor === null ? null : JSON.stringify(entry.actor),
      entry.action,
      entry.subject,
      JSON.stringify(entry.detail),
      entry.previous,
      digest,
    ]);
    return { ...entry, digest };
  });
}

export const digestOfEntry = (entry: AuditEntry): string => digestOf(entry);

interface Row {
  readonly seq: number;
  readonly at: string;
  readonly actor: string | null;
  readonly action: string;
  readonly subject: string | null;
  readonly detail: string;
  readonly previous: string;
  readonly digest: string;
}

/** The entries in order, from one on. */
export function readAudit(database: Database, from = 1, most = 1000): ChainedEntry[] {
  return database
    .all<Row>("SELECT * FROM audit WHERE seq >= ? ORDER BY seq LIMIT ?", [from, most])
    .map(({ seq, at, actor, action, subject, detail, previous, digest }) => ({
      seq,
      at,
      actor: actor === null ? null : (JSON.parse(actor) as string),
      action,
      subject,
      detail: JSON.parse(detail) as Readonly<Record<string, unknown>>,
      previous,
      digest,
    }));
}

/** The last entries, in order. */
export function lastEntries(database: Database, most: number): ChainedEntry[] {
  const last = database.get<{ seq: number }>("SELECT COALESCE(MAX(seq), 0) AS seq FROM audit")!.seq;
  return readAudit(database, Math.max(1, last - most + 1), most);
}
