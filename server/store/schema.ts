import { Fault } from "../errors.ts";
import { CALIBRATIONS_SCHEMA } from "./calibrations.ts";
import type { Database } from "./database.ts";
import { EVIDENCE_SCHEMA, EVIDENCE_TABLES } from "./evidence.ts";

/** What is written once stays: the database itself refuses to change it. */
const unchangeable = (table: string, why: string): string => `
  CREATE TRIGGER ${table}_no_update BEFORE UPDATE ON ${table} BEGIN SELECT RAISE(ABORT, '${why}'); END;
  CREATE TRIGGER ${table}_no_delete BEFORE DELETE ON ${table} BEGIN SELECT RAISE(ABORT, '${why}'); END;`;

/** Tables that only grow. A restore lifts their triggers within its transaction. */
export const UNCHANGEABLE: Readonly<Record<string, string>> = {
  records: "a record is never changed",
  studies: "a study is never changed",
  notes: "a note is never changed: a new version is written",
  laboratory: "the defaults of the laboratory are never changed: a new version is written",
  audit: "the audit trail is only added to",
};

/** The triggers of tables that only grow: of all, or of those that a step makes. */
export const lockTables = (tables: readonly string[] = Object.keys(UNCHANGEABLE)): string =>
  tables.map((table) => unchangeable(table, UNCHANGEABLE[table]!)).join("\n");

export const unlockTables = (): string =>
  Object.keys(UNCHANGEABLE)
    .map((table) => `DROP TRIGGER ${table}_no_update; DROP TRIGGER ${table}_no_delete;`)
    .join("\n");

/** Tables in an order in which each finds what it refers to. */
export const TABLES = [
  "meta",
  "studies",
  "study_versions",
  "records",
  "own_studies",
  "runs",
  "notes",
  "drafts",
  "laboratory",
  "checkpoints",
  "checkpoint_pieces",
  "start_keys",
  ...EVIDENCE_TABLES,
  "calibrations",
  "audit",
] as const;

/**
 * Each step brings a store from the version of its place to the next; the version stands in `user_version`. A step that
 * was released is never edited.
 *
 * Text from outside (titles, notes, ids of listed studies) is kept as JSON: any character survives, NUL and half a
 * surrogate pair among them.
 */
const STEPS: readonly string[] = [
  `
  CREATE TABLE meta (name TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;

  CREATE TABLE studies (
    digest TEXT PRIMARY KEY,
    document TEXT NOT NULL
  ) STRICT;

  -- A series is a listed study, or the studies of one title. Its version rises with every change but seed and trials.
  CREATE TABLE study_versions (
    series TEXT NOT NULL,
    content TEXT NOT NULL,
    version INTEGER NOT NULL,
    at TEXT NOT NULL,
    PRIMARY KEY (series, content),
    UNIQUE (series, version)
  ) STRICT;

  CREATE TABLE records (
    digest TEXT PRIMARY KEY,
    bytes BLOB NOT NULL
  ) STRICT;

  -- In the order they were accepted, whatever the clock showed.
  CREATE TABLE runs (
    seq INTEGER PRIMARY KEY AUTOINCREMENT,
    id TEXT NOT NULL UNIQUE,
    accepted TEXT NOT NULL,
    state TEXT NOT NULL CHECK (state IN ('waiting', 'running', 'finished', 'failed', 'cancelled')),
    title TEXT NOT NULL,
    model TEXT NOT NULL,
    listed TEXT,
    study TEXT NOT NULL REFERENCES studies (digest),
    version INTEGER NOT NULL,
    trials INTEGER NOT NULL,
    most INTEGER NOT NULL,
    verdict TEXT,
    record TEXT REFERENCES records (digest),
    error TEXT,
    requester TEXT NOT NULL,
    removed TEXT,
    CHECK ((state = 'finished') = (record IS NOT NULL))
  ) STRICT;
  CREATE INDEX runs_unfinished ON runs (seq) WHERE state IN ('waiting', 'running');

  CREATE TABLE notes (
    run INTEGER NOT NULL REFERENCES runs (seq),
    version INTEGER NOT NULL,
    text TEXT,
    at TEXT NOT NULL,
    PRIMARY KEY (run, version)
  ) STRICT;

  CREATE TABLE checkpoints (
    run INTEGER PRIMARY KEY REFERENCES runs (seq),
    trials INTEGER NOT NULL,
    maker TEXT NOT NULL,
    state BLOB NOT NULL
  ) STRICT;
  CREATE TABLE checkpoint_pieces (
    run INTEGER NOT NULL REFERENCES runs (seq),
    piece INTEGER NOT NULL,
    digest TEXT NOT NULL,
    bytes BLOB NOT NULL,
    PRIMARY KEY (run, piece)
  ) STRICT;

  CREATE TABLE audit (
    seq INTEGER PRIMARY KEY,
    at TEXT NOT NULL,
    actor TEXT,
    action TEXT NOT NULL,
    subject TEXT,
    detail TEXT NOT NULL,
    previous TEXT NOT NULL,
    digest TEXT NOT NULL UNIQUE
  ) STRICT;
  ${lockTables(["records", "studies", "notes", "audit"])}
  `,
  `
  -- The key a program gave when it had a run started, so that asking again after a lost answer starts no second one.
  CREATE TABLE start_keys (
    actor TEXT NOT NULL,
    key TEXT NOT NULL,
    request TEXT NOT NULL,
    run TEXT NOT NULL,
    at TEXT NOT NULL,
    PRIMARY KEY (actor, key)
  ) STRICT;
  CREATE INDEX start_keys_at ON start_keys (at);
  `,
  `
  -- A study of the laboratory's own, under the name it is found by. Its versions are those of its runs.
  CREATE TABLE own_studies (
    id TEXT PRIMARY KEY,
    name TEXT NOT NULL,
    tags TEXT NOT NULL,
    -- Rises when a person names or tags it; until then its name follows its title.
    revision INTEGER NOT NULL,
    made TEXT NOT NULL
  ) STRICT;
  ALTER TABLE runs ADD COLUMN own TEXT REFERENCES own_studies (id);
  CREATE INDEX runs_own ON runs (own) WHERE own IS NOT NULL;

  -- Up to now the studies of one title were one series: each becomes a study of its own, with the versions it had.
  INSERT INTO own_studies
    SELECT lower(hex(randomblob(16))), title, '[]', 0, MIN(accepted) FROM runs WHERE listed IS NULL GROUP BY title;
  UPDATE runs SET own = (SELECT id FROM own_studies WHERE name = runs.title) WHERE listed IS NULL;
  UPDATE study_versions
    SET series = (SELECT '{"own":"' || id || '"}' FROM own_studies WHERE '{"title":' || name || '}' = series)
    WHERE series IN (SELECT '{"title":' || name || '}' FROM own_studies);

  -- Forms that are being filled in; the page alone knows what is in one.
  CREATE TABLE drafts (
    id TEXT PRIMARY KEY,
    title TEXT NOT NULL,
    own TEXT REFERENCES own_studies (id),
    form TEXT NOT NULL,
    revision INTEGER NOT NULL,
    made TEXT NOT NULL,
    changed TEXT NOT NULL,
    discarded TEXT
  ) STRICT;

  CREATE TABLE laboratory (
    version INTEGER PRIMARY KEY,
    defaults TEXT NOT NULL,
    at TEXT NOT NULL
  ) STRICT;
  ${lockTables(["laboratory"])}
  `,
  EVIDENCE_SCHEMA,
  CALIBRATIONS_SCHEMA,
];

export const SCHEMA_VERSION = STEPS.length;

/**
 * Brings a store to today's schema, all steps or none.
 *
 * @throws {Fault} `cannot-keep`: a store of a later version
 */
export function migrate(database: Database): void {
  const found = database.get<{ user_version: number }>("PRAGMA user_version")!.user_version;
  if (found > SCHEMA_VERSION) {
    throw new Fault(
      "cannot-keep",
      `The store has version ${found}; expected at most ${SCHEMA_VERSION}. A later Trialband wrote it: use that one.`,
    );
  }
  if (found === SCHEMA_VERSION) return;
  database.transaction(() => {
    for (const step of STEPS.slice(found)) database.exec(step);
    database.exec(`PRAGMA user_version = ${SCHEMA_VERSION}`);
  });
}
