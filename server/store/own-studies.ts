import { createHash, randomUUID } from "node:crypto";
import type { OwnStudy } from "../../viewer/api/own-studies.ts";
import { Fault } from "../errors.ts";
import { tellAudit } from "./audit-trail.ts";
import type { Database } from "./database.ts";
import { keptText, keptTexts, UNREADABLE } from "./kept-json.ts";
import { asKey } from "./run-rows.ts";

/** What a person calls a study of the laboratory's own. */
export interface Naming {
  readonly name: string;
  readonly tags: readonly string[];
}

/** Asks for a study of its own, whatever its title. */
const NEW = "new";

/**
 * The study of the laboratory's own that a run belongs to, made if there is none.
 *
 * @param asked its id, `new`, or `null` for the one that last had a run of this title
 * @throws {Fault} `no-such-study`
 */
export function ownStudyFor(database: Database, title: string, asked: string | null, at: string): string {
  const name = JSON.stringify(title);
  if (asked === NEW) return begin(database, name, at);
  if (asked === null) {
    const last = database.get<{ own: string }>(
      "SELECT own FROM runs WHERE own IS NOT NULL AND title = ? ORDER BY seq DESC LIMIT 1",
      [name],
    );
    return last?.own ?? begin(database, name, at);
  }
  const row = database.get<{ id: string; revision: number }>("SELECT id, revision FROM own_studies WHERE id = ?", [
    asKey(asked),
  ]);
  if (row === undefined) throw noSuchOwnStudy(asked);
  // What nobody has named is called by the title of its latest version.
  if (row.revision === 0) database.run("UPDATE own_studies SET name = ? WHERE id = ?", [name, row.id]);
  return row.id;
}

function begin(database: Database, name: string, at: string): string {
  const id = randomUUID();
  database.run("INSERT INTO own_studies VALUES (?, ?, '[]', 0, ?)", [id, name, at]);
  return id;
}

interface Row {
  readonly id: string;
  readonly name: string;
  readonly tags: string;
  readonly revision: number;
  readonly made: string;
  readonly model: string;
  readonly last: string;
  readonly runs: number;
  readonly versions: number;
}

const STUDIES = `
  SELECT own_studies.id, own_studies.name, own_studies.tags, own_studies.revision, own_studies.made,
    latest.model, latest.accepted AS last, counted.runs, counted.versions
  FROM own_studies
    JOIN (SELECT own, MAX(seq) AS seq, COUNT(*) AS runs, MAX(version) AS versions
      FROM runs WHERE own IS NOT NULL AND removed IS NULL GROUP BY own) AS counted ON counted.own = own_studies.id
    JOIN runs AS latest ON latest.seq = counted.seq`;

/** The studies that have a run on the list, the one with the newest first. */
export const ownStudiesOf = (database: Database): OwnStudy[] =>
  database.all<Row>(`${STUDIES} ORDER BY latest.seq DESC`).map(studyOf);

const studyOf = ({ name, tags, model, ...row }: Row): OwnStudy => ({
  ...row,
  name: keptText(name) ?? UNREADABLE,
  tags: keptTexts(tags),
  model: keptText(model) ?? UNREADABLE,
});

/**
 * Names and tags a study.
 *
 * @param expected the revision that the writer has seen; `null` writes over any
 * @throws {Fault} `no-such-study`; `changed-meanwhile`
 */
export function nameOwnStudy(
  database: Database,
  id: string,
  { name, tags }: Naming,
  expected: number | null,
  at: string,
  actor: string | null,
): OwnStudy {
  return database.transaction(() => {
    const row = database.get<{ revision: number }>("SELECT revision FROM own_studies WHERE id = ?", [asKey(id)]);
    if (row === undefined) throw noSuchOwnStudy(id);
    if (expected !== null && expected !== row.revision)
      throw new Fault(
        "changed-meanwhile",
        `The name of this study has version ${row.revision}; expected version ${expected}. Read it again before you write over it.`,
      );
    const revision = row.revision + 1;
    const kept = [JSON.stringify(name), JSON.stringify(tags)] as const;
    database.run("UPDATE own_studies SET name = ?, tags = ?, revision = ? WHERE id = ?", [...kept, revision, id]);
    tellAudit(database, {
      at,
      actor,
      action: "study named",
      subject: id,
      detail: { revision, named: namingDigest(...kept) },
    });
    const named = database.get<Row>(`${STUDIES} WHERE own_studies.id = ?`, [id]);
    if (named === undefined) throw noSuchOwnStudy(id);
    return studyOf(named);
  });
}

/** What the audit trail has of a name and its tags. */
export const namingDigest = (name: string, tags: string): string =>
  createHash("sha256").update(`${name}\n${tags}`).digest("hex");

const noSuchOwnStudy = (id: string): Fault =>
  new Fault("no-such-study", `There is no study of the laboratory's own with the id ${id}.`);
