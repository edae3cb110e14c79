import type { RemovedRun, RunHead, RunState } from "../../viewer/api/runs.ts";
import type { Database } from "./database.ts";

interface HeadRow {
  readonly seq: number;
  readonly id: string;
  readonly accepted: string;
  readonly state: RunState;
  readonly title: string;
  readonly model: string;
  readonly listed: string | null;
  readonly version: number;
  readonly own: string | null;
  readonly trials: number;
  readonly most: number;
  readonly verdict: string | null;
  readonly requester: string;
  readonly note: string | null;
  readonly note_version: number | null;
}

const COLUMNS = `
  SELECT runs.seq, runs.id, runs.accepted, runs.state, runs.title, runs.model, runs.listed, runs.version, runs.own, runs.trials,
    runs.most, runs.verdict, runs.requester, notes.text AS note, notes.version AS note_version
  FROM runs LEFT JOIN notes
    ON notes.run = runs.seq AND notes.version = (SELECT MAX(version) FROM notes WHERE run = runs.seq)`;

/** The heads of the runs that were not removed, newest first. */
export const headsOf = (database: Database): RunHead[] =>
  database.all<HeadRow>(`${COLUMNS} WHERE runs.removed IS NULL ORDER BY runs.seq DESC`).map(headOf);

/** The runs that were removed, the last first, with who removed them. */
export function removedOf(database: Database): RemovedRun[] {
  // SQLite gives the columns beside the greatest from its row.
  const by = new Map(
    database
      .all<{ subject: string; actor: string | null }>(
        "SELECT subject, actor, MAX(seq) FROM audit WHERE action = 'run removed' GROUP BY subject",
      )
      .map(({ subject, actor }) => [subject, actor === null ? null : (JSON.parse(actor) as string)] as const),
  );
  return database
    .all<HeadRow & { readonly removed: string }>(
      `${COLUMNS.replace("SELECT", "SELECT runs.removed,")} WHERE runs.removed IS NOT NULL ORDER BY runs.removed DESC, runs.seq DESC`,
    )
    .map((row) => ({ ...headOf(row), removedAt: row.removed, removedBy: by.get(row.id) ?? null }));
}

/** A run that waits or goes on. */
export interface UnfinishedRun {
  readonly head: RunHead;
  /** Whose turn it takes. */
  readonly requester: string;
}

/** The runs that wait or go on, in the order they were accepted. */
export const unfinishedOf = (database: Database): UnfinishedRun[] =>
  database
    .all<HeadRow>(`${COLUMNS} WHERE runs.state IN ('waiting', 'running') ORDER BY runs.seq`)
    .map((row) => ({ head: headOf(row), requester: JSON.parse(row.requester) as string }));

/** The head of a run that was not removed, or `null`. */
export function headById(database: Database, id: string): RunHead | null {
  const row = database.get<HeadRow>(`${COLUMNS} WHERE runs.id = ? AND runs.removed IS NULL`, [asKey(id)]);
  return row === undefined ? null : headOf(row);
}

/** Ids come from addresses that people type; none that was given out has a NUL. */
export const asKey = (id: string): string => id.replaceAll("\0", "\u{fffd}");

const headOf = (row: HeadRow): RunHead => ({
  id: row.id,
  title: JSON.parse(row.title) as string,
  model: JSON.parse(row.model) as string,
  state: row.state,
  startedAt: row.accepted,
  trials: row.trials,
  limit: row.most,
  verdict: row.verdict === null ? null : (JSON.parse(row.verdict) as RunHead["verdict"]),
  study: row.listed === null ? null : (JSON.parse(row.listed) as string),
  studyVersion: row.version,
  own: row.own,
  note: row.note === null ? null : (JSON.parse(row.note) as string),
  noteVersion: row.note_version ?? 0,
  notKept: null,
});
