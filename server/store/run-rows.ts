import { runHead, type RemovedRun, type RunHead, type RunState } from "../../viewer/api/runs.ts";
import type { Database } from "./database.ts";
import { keptText, UNREADABLE } from "./kept-json.ts";

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
  const removals = new Map(
    database
      .all<{ subject: string; actor: string | null; last: number }>(
        "SELECT subject, actor, MAX(seq) AS last FROM audit WHERE action = 'run removed' GROUP BY subject",
      )
      .map((row) => [row.subject, row] as const),
  );
  const removalOf = (id: string): { by: string | null; last: number } => {
    const found = removals.get(id);
    return { by: found?.actor == null ? null : (keptText(found.actor) ?? UNREADABLE), last: found?.last ?? 0 };
  };
  return (
    database
      .all<HeadRow & { readonly removed: string }>(
        `${COLUMNS.replace("SELECT", "SELECT runs.removed,")} WHERE runs.removed IS NOT NULL ORDER BY runs.seq DESC`,
      )
      .map((row) => ({ row, ...removalOf(row.id) }))
      // By the audit trail and not by the time, of which several removals may share a millisecond.
      .toSorted((a, b) => b.last - a.last)
      .map(({ row, by }) => ({ ...headOf(row), removedAt: row.removed, removedBy: by }))
  );
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
    .map((row) => ({ head: headOf(row), requester: keptText(row.requester) ?? "" }));

/** The head of a run that was not removed, or `null`. */
export function headById(database: Database, id: string): RunHead | null {
  const row = database.get<HeadRow>(`${COLUMNS} WHERE runs.id = ? AND runs.removed IS NULL`, [asKey(id)]);
  return row === undefined ? null : headOf(row);
}

/** Ids come from addresses that people type; none that was given out has a NUL. */
export const asKey = (id: string): string => id.replaceAll("\0", "\u{fffd}");

/** A head. What was altered on the disk so that it cannot be read is named in it, and fails no other run of a list. */
function headOf(row: HeadRow): RunHead {
  const unreadable: string[] = [];
  const textOf = (json: string | null, name: string): string | null => {
    const text = json === null ? null : keptText(json);
    if (json !== null && text === null) unreadable.push(name);
    return text;
  };
  const verdict = verdictIn(row.verdict);
  if (verdict === undefined) unreadable.push("verdict");
  const head = {
    id: row.id,
    title: textOf(row.title, "title") ?? UNREADABLE,
    model: textOf(row.model, "model") ?? UNREADABLE,
    state: row.state,
    startedAt: row.accepted,
    trials: row.trials,
    limit: row.most,
    verdict: verdict ?? null,
    study: textOf(row.listed, "study"),
    studyVersion: row.version,
    own: row.own,
    note: textOf(row.note, "note"),
    noteVersion: row.note_version ?? 0,
    notKept: null,
  };
  return unreadable.length === 0 ? head : { ...head, unreadable };
}

/** `undefined`: altered. */
function verdictIn(json: string | null): RunHead["verdict"] | undefined {
  if (json === null) return null;
  try {
    return runHead.shape.verdict.safeParse(JSON.parse(json)).data;
  } catch {
    return undefined;
  }
}
