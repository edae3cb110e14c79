import type { Draft, DraftHead, DraftSent } from "../../viewer/api/drafts.ts";
import { Fault } from "../errors.ts";
import type { Database } from "./database.ts";
import { keptText, UNREADABLE } from "./kept-json.ts";
import { asKey } from "./run-rows.ts";

interface Row {
  readonly id: string;
  readonly title: string;
  readonly own: string | null;
  readonly revision: number;
  readonly made: string;
  readonly changed: string;
}

const HEAD = "SELECT id, title, own, revision, made, changed FROM drafts";

const headOf = ({ title, ...row }: Row): DraftHead => ({ ...row, title: keptText(title) ?? UNREADABLE });

/** The drafts that were not discarded, the one changed last first. */
export const draftsOf = (database: Database): DraftHead[] =>
  database.all<Row>(`${HEAD} WHERE discarded IS NULL ORDER BY changed DESC, id`).map(headOf);

/** A draft whole, also one that was discarded: a link to it still leads there. @throws {Fault} `no-such-draft` */
export function readDraft(database: Database, id: string): Draft {
  const row = database.get<Row & { form: string }>("SELECT * FROM drafts WHERE id = ?", [asKey(id)]);
  if (row === undefined) throw noSuchDraft(id);
  const { form, title, own, revision, made, changed } = row;
  return {
    id,
    title: JSON.parse(title) as string,
    own,
    revision,
    made,
    changed,
    form: JSON.parse(form) as Draft["form"],
  };
}

/**
 * Keeps what is written of a draft; one that was discarded is there again.
 *
 * @param expected the revision that the writer has seen, 0 for a new one; `null` writes over any
 * @throws {Fault} `changed-meanwhile`: somebody else has written it; `no-such-study`
 */
export function writeDraft(
  database: Database,
  id: string,
  { title, own, form }: DraftSent,
  expected: number | null,
  at: string,
): DraftHead {
  return database.transaction(() => {
    const before = database.get<{ revision: number }>("SELECT revision FROM drafts WHERE id = ?", [id]);
    const revision = before?.revision ?? 0;
    if (expected !== null && expected !== revision)
      throw new Fault(
        "changed-meanwhile",
        `This draft has version ${revision}; expected version ${expected}. It was changed in another window or by somebody else.`,
      );
    if (own !== null && database.get("SELECT 1 FROM own_studies WHERE id = ?", [asKey(own)]) === undefined)
      throw new Fault("no-such-study", `There is no study of the laboratory's own with the id ${own}.`);
    database.run(
      `INSERT INTO drafts (id, title, own, form, revision, made, changed, discarded) VALUES (?, ?, ?, ?, ?, ?, ?, NULL)
       ON CONFLICT (id) DO UPDATE SET title = excluded.title, own = excluded.own, form = excluded.form,
         revision = excluded.revision, changed = excluded.changed, discarded = NULL`,
      [id, JSON.stringify(title), own, JSON.stringify(form), revision + 1, at, at],
    );
    return headOf(database.get<Row>(`${HEAD} WHERE id = ?`, [id])!);
  });
}

/** Takes a draft off the list. @throws {Fault} `no-such-draft` */
export function discardDraft(database: Database, id: string, at: string): void {
  if (database.run("UPDATE drafts SET discarded = ? WHERE id = ?", [at, asKey(id)]) === 0) throw noSuchDraft(id);
}

/** Puts a discarded draft back on the list. @throws {Fault} `no-such-draft` */
export function takeUpDraft(database: Database, id: string): DraftHead {
  database.run("UPDATE drafts SET discarded = NULL WHERE id = ?", [asKey(id)]);
  const row = database.get<Row>(`${HEAD} WHERE id = ?`, [asKey(id)]);
  if (row === undefined) throw noSuchDraft(id);
  return headOf(row);
}

const noSuchDraft = (id: string): Fault => new Fault("no-such-draft", `There is no draft ${id}.`);
