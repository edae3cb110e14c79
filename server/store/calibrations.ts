import { createHash, randomUUID } from "node:crypto";
import { digestOf } from "../canonical.ts";
import { Fault, refused } from "../errors.ts";
import type { ListedCalibration } from "../../viewer/api/kept-calibrations.ts";
import { tellAudit, type Action } from "./audit-trail.ts";
import type { Database } from "./database.ts";
import { keptText, parseKept, UNREADABLE } from "./kept-json.ts";
import { asKey } from "./run-rows.ts";

/** What was read of the files of a calibration: enough to make its studies, results and certificates again. */
export interface CalibrationContent {
  readonly calibration: Readonly<Record<string, unknown>>;
  readonly reference: Readonly<Record<string, unknown>> | null;
  readonly overdue: string | null;
  readonly files: readonly { readonly name: string; readonly sha256: string }[];
}

/** What a list shows of it, as its document has it. */
export interface CalibrationHead {
  readonly title: string;
  readonly laboratory: string | null;
  readonly points: number;
  /** Ids of its instruments. */
  readonly instruments: readonly string[];
}

/** Calibrations that are kept, with the fields of their certificates and the runs of their studies. */
export interface CalibrationStore {
  /** The one changed last first. */
  list(): ListedCalibration[];
  /** The one removed last first. */
  removed(): ListedCalibration[];
  /** @throws {Fault} `no-such-calibration`. @throws {Error} it was altered on the disk */
  read(id: string): ListedCalibration & { readonly content: CalibrationContent };
  keep(content: CalibrationContent, head: CalibrationHead, actor: string | null): string;
  /** Another document. @param seen revision that the writer has seen; `null` writes over any. @throws {Fault} `changed-meanwhile` */
  change(
    id: string,
    calibration: CalibrationContent["calibration"],
    head: CalibrationHead,
    seen: number | null,
    actor: string | null,
  ): void;
  /** Says which run is that of an instrument's study. @throws {Fault} `bad-input`: another instrument */
  setRun(id: string, instrument: string, run: string, actor: string | null): void;
  /** @throws {Fault} `changed-meanwhile` */
  name(
    id: string,
    naming: { readonly name: string; readonly note: string | null },
    seen: number | null,
    actor: string | null,
  ): void;
  remove(id: string, actor: string | null): void;
  bringBack(id: string, actor: string | null): void;
}

/** The step of the schema that makes the table. */
export const CALIBRATIONS_SCHEMA = `
  -- The document is written over as its certificates' fields are filled in; the trail has the digest of each state.
  CREATE TABLE calibrations (
    seq INTEGER PRIMARY KEY AUTOINCREMENT,
    id TEXT NOT NULL UNIQUE,
    name TEXT NOT NULL,
    note TEXT,
    laboratory TEXT,
    points INTEGER NOT NULL,
    -- Ids of instruments, and the run of each that has one.
    instruments TEXT NOT NULL,
    runs TEXT NOT NULL,
    content TEXT NOT NULL,
    revision INTEGER NOT NULL,
    made TEXT NOT NULL,
    changed TEXT NOT NULL,
    removed TEXT
  ) STRICT;
`;

interface Row {
  readonly seq: number;
  readonly id: string;
  readonly name: string;
  readonly note: string | null;
  readonly laboratory: string | null;
  readonly points: number;
  readonly instruments: string;
  readonly runs: string;
  readonly revision: number;
  readonly made: string;
  readonly changed: string;
  readonly removed: string | null;
}
interface WholeRow extends Row {
  readonly content: string;
}

const HEAD =
  "SELECT seq, id, name, note, laboratory, points, instruments, runs, revision, made, changed, removed FROM calibrations";

const listedOf = ({ id, name, note, laboratory, points, instruments, runs, ...row }: Row): ListedCalibration => {
  const started = read(runs, id) as Readonly<Record<string, string>>;
  const text = (kept: string | null): string | null => (kept === null ? null : (keptText(kept) ?? UNREADABLE));
  return {
    id,
    name: text(name)!,
    note: text(note),
    laboratory: text(laboratory),
    points,
    instruments: (read(instruments, id) as readonly string[]).map((one) => ({
      id: one,
      run: Object.hasOwn(started, one) ? started[one]! : null,
    })),
    made: row.made,
    changed: row.changed,
    revision: row.revision,
  };
};

const read = (json: string, id: string): unknown => parseKept(json, `the calibration ${id}`);

/** @param now ISO 8601 */
export function calibrationStore(database: Database, now: () => string): CalibrationStore {
  const rowOf = (id: string, removed = false): WholeRow => {
    const row = wholeRow(database, id);
    if (row === undefined || (row.removed !== null) !== removed)
      throw new Fault("no-such-calibration", `There is no calibration ${JSON.stringify(id)}.`);
    return row;
  };
  /** Writes what is new of a calibration, and tells the trail the state that it then has. */
  const write = (
    action: Action,
    id: string,
    actor: string | null,
    changed: Partial<Omit<WholeRow, "seq" | "id" | "made">>,
    detail: Readonly<Record<string, unknown>> = {},
  ): void => {
    const at = now();
    const fields = Object.entries({ ...changed, changed: changed.changed ?? at });
    database.run(`UPDATE calibrations SET ${fields.map(([name]) => `${name} = ?`).join(", ")} WHERE id = ?`, [
      ...fields.map(([, value]) => value),
      asKey(id),
    ]);
    const row = wholeRow(database, id)!;
    const { revision } = row;
    tellAudit(database, { at, actor, action, subject: id, detail: { ...detail, revision, state: stateOf(row) } });
  };
  const seenIs = ({ revision }: Row, seen: number | null): void => {
    if (seen !== null && seen !== revision)
      throw new Fault(
        "changed-meanwhile",
        `The calibration has revision ${revision}; expected ${seen}. It was changed in another window or by somebody else: open it again before you write over it.`,
      );
  };
  const headRow = ({ laboratory, points, instruments }: CalibrationHead) => ({
    laboratory: laboratory === null ? null : JSON.stringify(laboratory),
    points,
    instruments: JSON.stringify(instruments),
  });
  return {
    list: () => database.all<Row>(`${HEAD} WHERE removed IS NULL ORDER BY changed DESC, seq DESC`).map(listedOf),
    removed: () => database.all<Row>(`${HEAD} WHERE removed IS NOT NULL ORDER BY removed DESC, seq DESC`).map(listedOf),
    read(id) {
      const row = rowOf(id);
      return { ...listedOf(row), content: read(row.content, id) as CalibrationContent };
    },
    keep: (content, head, actor) =>
      database.transaction(() => {
        const id = randomUUID();
        const at = now();
        const { laboratory, points, instruments } = headRow(head);
        database.run(
          `INSERT INTO calibrations (id, name, note, laboratory, points, instruments, runs, content, revision, made, changed)
           VALUES (?, ?, NULL, ?, ?, ?, '{}', ?, 1, ?, ?)`,
          [id, JSON.stringify(head.title), laboratory, points, instruments, contentToKeep(content), at, at],
        );
        write("calibration kept", id, actor, { changed: at });
        return id;
      }),
    change: (id, calibration, head, seen, actor) =>
      database.transaction(() => {
        const row = rowOf(id);
        seenIs(row, seen);
        const before = read(row.content, id) as CalibrationContent;
        const content = contentToKeep({ ...before, calibration });
        // A run of an instrument that is gone is no longer of this calibration; it stays in the library.
        const runs = Object.entries(read(row.runs, id) as Readonly<Record<string, string>>);
        write("calibration changed", id, actor, {
          ...headRow(head),
          content,
          runs: JSON.stringify(Object.fromEntries(runs.filter(([one]) => head.instruments.includes(one)))),
          revision: row.revision + 1,
        });
      }),
    setRun: (id, instrument, run, actor) =>
      database.transaction(() => {
        const row = rowOf(id);
        const instruments = read(row.instruments, id) as readonly string[];
        if (!instruments.includes(instrument))
          throw refused("instrument", instrument, `one of ${instruments.join(", ")}`);
        const runs = { ...(read(row.runs, id) as Readonly<Record<string, string>>), [instrument]: run };
        write(
          "calibration run",
          id,
          actor,
          { runs: JSON.stringify(runs), revision: row.revision + 1 },
          { instrument, run },
        );
      }),
    name: (id, { name, note }, seen, actor) =>
      database.transaction(() => {
        const row = rowOf(id);
        seenIs(row, seen);
        write("calibration named", id, actor, {
          name: JSON.stringify(name),
          note: note === null ? null : JSON.stringify(note),
          revision: row.revision + 1,
        });
      }),
    remove: (id, actor) =>
      database.transaction(() => {
        const { changed } = rowOf(id);
        write("calibration removed", id, actor, { removed: now(), changed });
      }),
    bringBack: (id, actor) =>
      database.transaction(() => {
        const { changed } = rowOf(id, true);
        write("calibration brought back", id, actor, { removed: null, changed });
      }),
  };
}

const wholeRow = (database: Database, id: string): WholeRow | undefined =>
  database.get<WholeRow>(`${HEAD.replace(" FROM", ", content FROM")} WHERE id = ?`, [asKey(id)]);

/** @throws {Fault} `bad-input`: text that no file in UTF-8 can hold */
function contentToKeep(content: CalibrationContent): string {
  try {
    digestOf(content);
  } catch (cause) {
    throw new Fault("bad-input", "The calibration cannot be kept.", [
      { place: "calibration", value: String(cause), accepted: "text of whole Unicode characters and finite numbers" },
    ]);
  }
  return JSON.stringify(content);
}

/** What the audit trail has of a calibration as it was then. */
const stateOf = ({ name, note, laboratory, points, instruments, runs, content, revision, removed }: WholeRow): string =>
  createHash("sha256")
    .update(JSON.stringify([name, note, laboratory, points, instruments, runs, content, revision, removed !== null]))
    .digest("hex");

/**
 * Calibrations that are not as the trail says.
 *
 * @param told the state that the trail has last, by calibration
 */
export function calibrationsAgainst(database: Database, told: ReadonlyMap<string, unknown>): string[] {
  const ids = database.all<{ id: string }>("SELECT id FROM calibrations ORDER BY seq").map(({ id }) => id);
  const there = new Set(ids);
  return [
    ...ids
      .filter((id) => stateOf(wholeRow(database, id)!) !== told.get(id))
      .map((id) => `calibration ${id}: it is not in the state that the trail has last`),
    ...[...told.keys()].filter((id) => !there.has(id)).map((id) => `calibration ${id} is missing`),
  ];
}
