import { createHash, randomUUID } from "node:crypto";
import type {
  EvidenceKind,
  EvidenceVersion,
  KeptFile,
  ListedEvidence,
  OwnEvidence,
} from "../../viewer/api/evidence.ts";
import { Fault } from "../errors.ts";
import { tellAudit } from "./audit-trail.ts";
import type { Database } from "./database.ts";
import { keptText, UNREADABLE } from "./kept-json.ts";
import { asKey } from "./run-rows.ts";

/** A description with the files it names, as they are kept. */
export interface EvidenceContent {
  readonly title: string;
  readonly document: Readonly<Record<string, unknown>>;
  readonly files: readonly { readonly name: string; readonly sha256: string }[];
}

/** A saved version, to be evaluated. */
export interface SavedEvidence extends EvidenceContent {
  readonly id: string;
  readonly kind: EvidenceKind;
  readonly version: number;
}

/** Surveys of one's own: a draft each, and the versions that were saved. */
export interface EvidenceStore {
  /** Keeps a file under its digest. */
  keepFile(name: string, bytes: Uint8Array): KeptFile;
  /** `null` if there is none. */
  file(sha256: string): Uint8Array | null;
  list(): ListedEvidence[];
  /** @throws {Fault} `no-such-evidence` */
  read(id: string): OwnEvidence;
  /** @throws {Fault} `bad-input`: a file that is not kept */
  create(kind: EvidenceKind, content: EvidenceContent, actor?: string | null): OwnEvidence;
  /**
   * Another draft; `digests` names it if it becomes a version.
   *
   * @throws {Fault} `changed-meanwhile`: the draft is another than the one seen
   */
  change(
    id: string,
    content: EvidenceContent,
    seen: number,
    digests: string | null,
    actor?: string | null,
  ): OwnEvidence;
  /** A version as it was saved. @throws {Fault} `no-such-evidence` */
  version(id: string, version: number): EvidenceContent & { readonly version: number; readonly at: string };
  /** Those of the digests whose files are kept. */
  kept(digests: readonly string[]): string[];
  /** The newest version of that name, or `null`. */
  byDigests(digests: string): SavedEvidence | null;
  remove(id: string, actor?: string | null): void;
  bringBack(id: string, actor?: string | null): void;
}

export const EVIDENCE_TABLES = ["files", "evidence", "evidence_versions"] as const;

/** The step of the schema that makes the tables. */
export const EVIDENCE_SCHEMA = `
  CREATE TABLE files (
    sha256 TEXT PRIMARY KEY,
    size INTEGER NOT NULL,
    bytes BLOB NOT NULL
  ) STRICT;

  -- The draft is written over; versions are only added.
  CREATE TABLE evidence (
    seq INTEGER PRIMARY KEY AUTOINCREMENT,
    id TEXT NOT NULL UNIQUE,
    kind TEXT NOT NULL,
    title TEXT NOT NULL,
    draft INTEGER NOT NULL,
    document TEXT NOT NULL,
    files TEXT NOT NULL,
    at TEXT NOT NULL,
    removed TEXT
  ) STRICT;

  CREATE TABLE evidence_versions (
    evidence INTEGER NOT NULL REFERENCES evidence (seq),
    version INTEGER NOT NULL,
    title TEXT NOT NULL,
    document TEXT NOT NULL,
    files TEXT NOT NULL,
    digests TEXT NOT NULL,
    at TEXT NOT NULL,
    PRIMARY KEY (evidence, version)
  ) STRICT;
  CREATE INDEX evidence_digests ON evidence_versions (digests);
`;

interface Row {
  readonly seq: number;
  readonly id: string;
  readonly kind: EvidenceKind;
  readonly title: string;
  readonly draft: number;
  readonly document: string;
  readonly files: string;
  readonly at: string;
}

const contentOf = ({ title, document, files }: Pick<Row, "title" | "document" | "files">): EvidenceContent => ({
  title: JSON.parse(title) as string,
  document: JSON.parse(document) as EvidenceContent["document"],
  files: JSON.parse(files) as EvidenceContent["files"],
});

/** @param now ISO 8601 */
export function evidenceStore(database: Database, now: () => string): EvidenceStore {
  const rowOf = (id: string, removed = false): Row => {
    const row = database.get<Row>(
      `SELECT seq, id, kind, title, draft, document, files, at FROM evidence WHERE id = ? AND removed IS ${removed ? "NOT " : ""}NULL`,
      [asKey(id)],
    );
    if (row === undefined) throw new Fault("no-such-evidence", `There is nothing kept under ${JSON.stringify(id)}.`);
    return row;
  };
  const sizeOf = (sha256: string): number => {
    const row = database.get<{ size: number }>("SELECT size FROM files WHERE sha256 = ?", [sha256]);
    if (row === undefined)
      throw new Fault("bad-input", "A file is not here.", [
        { place: "files", value: sha256, accepted: "the SHA-256 of a file that was sent before" },
      ]);
    return row.size;
  };
  const versionsOf = (seq: number): EvidenceVersion[] =>
    database
      .all<EvidenceVersion>(
        "SELECT version, at, title, digests FROM evidence_versions WHERE evidence = ? ORDER BY version DESC",
        [seq],
      )
      .map((row) => ({ ...row, title: keptText(row.title) ?? UNREADABLE }));
  const read = (id: string): OwnEvidence => {
    const row = rowOf(id);
    const versions = versionsOf(row.seq);
    const files = JSON.parse(row.files) as EvidenceContent["files"];
    return {
      id: row.id,
      kind: row.kind,
      title: JSON.parse(row.title) as string,
      changedAt: row.at,
      version: versions[0]?.version ?? 0,
      draft: row.draft,
      document: JSON.parse(row.document) as OwnEvidence["document"],
      files: files.map((file) => ({ ...file, size: sizeOf(file.sha256) })),
      versions,
    };
  };
  const texts = ({ title, document, files }: EvidenceContent): [string, string, string] => {
    for (const { sha256 } of files) sizeOf(sha256);
    return [JSON.stringify(title), JSON.stringify(document), JSON.stringify(files)];
  };
  const mark = (id: string, removed: boolean, actor: string | null): void =>
    database.transaction(() => {
      const at = now();
      rowOf(id, !removed);
      database.run("UPDATE evidence SET removed = ? WHERE id = ?", [removed ? at : null, asKey(id)]);
      const action = removed ? "evidence removed" : "evidence brought back";
      tellAudit(database, { at, actor, action, subject: null, detail: { evidence: id } });
    });
  return {
    keepFile(name, bytes) {
      const sha256 = createHash("sha256").update(bytes).digest("hex");
      database.run("INSERT INTO files VALUES (?, ?, ?) ON CONFLICT DO NOTHING", [sha256, bytes.length, bytes]);
      return { name, sha256, size: bytes.length };
    },
    file: (sha256) =>
      database.get<{ bytes: Uint8Array }>("SELECT bytes FROM files WHERE sha256 = ?", [asKey(sha256)])?.bytes ?? null,
    list: () =>
      database
        .all<Row & { readonly version: number }>(
          `SELECT id, kind, title, at,
             COALESCE((SELECT MAX(version) FROM evidence_versions WHERE evidence = evidence.seq), 0) AS version
           FROM evidence WHERE removed IS NULL ORDER BY at DESC, seq DESC`,
        )
        .map(({ id, kind, title, at, version }) => ({
          id,
          kind,
          title: JSON.parse(title) as string,
          changedAt: at,
          version,
        })),
    read,
    create: (kind, content, _actor = null) =>
      database.transaction(() => {
        const id = randomUUID();
        database.run(
          "INSERT INTO evidence (id, kind, title, draft, document, files, at) VALUES (?, ?, ?, 1, ?, ?, ?)",
          [id, kind, ...texts(content), now()],
        );
        return read(id);
      }),
    change: (id, content, seen, digests, actor = null) =>
      database.transaction(() => {
        const { seq, draft } = rowOf(id);
        if (draft !== seen)
          throw new Fault(
            "changed-meanwhile",
            `The draft was changed elsewhere: it has number ${draft}; expected ${seen}. Open it again before you write over it.`,
          );
        const at = now();
        const kept = texts(content);
        database.run("UPDATE evidence SET title = ?, document = ?, files = ?, draft = ?, at = ? WHERE seq = ?", [
          ...kept,
          draft + 1,
          at,
          seq,
        ]);
        const last = versionsOf(seq)[0];
        if (digests !== null && last?.digests !== digests) {
          const version = (last?.version ?? 0) + 1;
          database.run("INSERT INTO evidence_versions VALUES (?, ?, ?, ?, ?, ?, ?)", [
            seq,
            version,
            ...kept,
            digests,
            at,
          ]);
          tellAudit(database, {
            at,
            actor,
            action: "evidence saved",
            subject: null,
            detail: { evidence: id, version, digests },
          });
        }
        return read(id);
      }),
    version(id, version) {
      const { seq } = rowOf(id);
      const row = database.get<Pick<Row, "title" | "document" | "files" | "at">>(
        "SELECT title, document, files, at FROM evidence_versions WHERE evidence = ? AND version = ?",
        [seq, version],
      );
      if (row === undefined)
        throw new Fault("no-such-evidence", `There is no version ${version} under ${JSON.stringify(id)}.`);
      return { version, at: row.at, ...contentOf(row) };
    },
    kept: (digests) =>
      digests.filter(
        (sha256) => database.get("SELECT size FROM files WHERE sha256 = ?", [asKey(sha256)]) !== undefined,
      ),
    byDigests(digests) {
      const row = database.get<Row & { readonly version: number }>(
        `SELECT evidence.id, evidence.kind, v.version, v.title, v.document, v.files
         FROM evidence_versions AS v JOIN evidence ON evidence.seq = v.evidence
         WHERE v.digests = ? ORDER BY v.at DESC LIMIT 1`,
        [asKey(digests)],
      );
      return row === undefined
        ? null
        : {
            id: row.id,
            kind: row.kind,
            version: row.version,
            ...contentOf(row),
          };
    },
    remove: (id, actor = null) => mark(id, true, actor),
    bringBack: (id, actor = null) => mark(id, false, actor),
  };
}
