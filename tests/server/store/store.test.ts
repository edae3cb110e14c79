import { statSync } from "node:fs";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { digestOf } from "../../../server/canonical.ts";
import { openDatabase } from "../../../server/store/database.ts";
import { openStore } from "../../../server/store/open-store.ts";
import { lockTables, unlockTables } from "../../../server/store/schema.ts";
import type { Store } from "../../../server/store/store.ts";
import { accepted, aRecord, aStudy, emptyFolder, FINISHED, finished } from "./sample.ts";

let folder: string;
let store: Store;
beforeEach(() => {
  folder = emptyFolder();
  store = openStore({ folder });
});
afterEach(() => store.close());

const reopened = (): Store => {
  store.close();
  return (store = openStore({ folder }));
};

describe("the life of a run", () => {
  test("accepted, running, finished: each state is there after the store was opened again", () => {
    const id = accepted(store);
    expect(reopened().head(id)).toMatchObject({ id, state: "waiting", trials: 0, limit: 20_000, noteVersion: 0 });
    expect(store.unfinished().map(({ head }) => head.id)).toEqual([id]);
    store.begin(id);
    expect(reopened().head(id)!.state).toBe("running");
    expect(store.end(id, FINISHED)).toBe(true);
    expect(reopened().head(id)).toMatchObject({ state: "finished", trials: 20_000, verdict: FINISHED.verdict });
    expect(store.read(id)).toEqual({ study: aStudy(), record: aRecord(), error: null });
    expect(store.unfinished()).toEqual([]);
  });

  test("a failed run keeps its error", () => {
    const id = accepted(store);
    const error = { code: "worker-lost", message: "A thread ended.", problems: [] } as const;
    store.end(id, { state: "failed", trials: 0, verdict: null, record: null, error });
    expect(reopened().read(id)!.error).toEqual(error);
  });

  test("a run ends once", () => {
    const id = finished(store);
    expect(store.end(id, { ...FINISHED, state: "cancelled", record: null })).toBe(false);
    expect(store.head(id)!.state).toBe("finished");
  });

  test("the list is newest first by the order of acceptance, also if the clock is set back", () => {
    store.close();
    let now = new Date("2026-11-29T10:00:00Z");
    store = openStore({ folder, now: () => now });
    const first = finished(store);
    now = new Date("2026-11-01T10:00:00Z");
    const second = finished(store);
    expect(store.heads().map(({ id }) => id)).toEqual([second, first]);
    expect(store.audit().problems).toEqual([]);
  });

  test.each(["\u2028", "\0", "\ud800", '"', "°", "\n", "𝛿", "x".repeat(2_000_000)])(
    "a title and a note hold any character (%#)",
    (character) => {
      const title = `a${character}b`;
      const id = finished(store, character === "\ud800" ? aStudy() : aStudy({ title }));
      store.annotate(id, title, null);
      const head = reopened().head(id)!;
      if (character !== "\ud800") expect(head.title).toBe(title);
      expect(head.note).toBe(title);
      expect(store.audit().problems).toEqual([]);
    },
  );

  test("a study with half a surrogate pair, which has no canonical form, is refused", () => {
    expect(() => accepted(store, aStudy({ title: "a\ud800b" }))).toThrow(
      expect.objectContaining({ code: "bad-input" }),
    );
    expect(store.heads()).toEqual([]);
  });

  test("an id with any character is an unknown run", () => {
    expect(store.head("\0")).toBeNull();
    expect(store.read("no\0such")).toBeNull();
  });
});

describe("studies", () => {
  test("another content is the next version, another seed or number of trials is not", () => {
    const version = (study = aStudy(), listed: string | null = "group/one"): number =>
      store.head(accepted(store, study, listed))!.studyVersion;
    expect(version()).toBe(1);
    expect(version(aStudy({ seed: "another", trials: 40_000 }))).toBe(1);
    expect(version(aStudy({ notes: "changed" }))).toBe(2);
    expect(version()).toBe(1);
    expect(version(aStudy({ notes: "changed" }), "group/two")).toBe(1);
    expect(version(aStudy({ notes: "changed" }), null)).toBe(1);
    expect(version(aStudy({ notes: "changed again" }), null)).toBe(2);
  });
});

describe("records", () => {
  test("are addressed by the digest of their canonical JSON and keep the order of their fields", () => {
    const id = finished(store);
    expect(JSON.stringify(store.read(id)!.record)).toBe(JSON.stringify(aRecord()));
    store.close();
    const database = openDatabase(join(folder, "trialband.db"));
    expect(database.all<{ digest: string }>("SELECT digest FROM records")).toMatchObject([
      { digest: digestOf(aRecord()) },
    ]);
    database.close();
    store = openStore({ folder });
  });

  test.each(["records", "studies", "notes", "audit"])("no row of %s is changed or deleted", (table) => {
    store.annotate(finished(store), "a note", null);
    store.close();
    const database = openDatabase(join(folder, "trialband.db"));
    const columns = database.all<{ name: string }>(`PRAGMA table_info(${table})`).map(({ name }) => name);
    for (const column of columns)
      expect(() => database.run(`UPDATE ${table} SET ${column} = ${column}`), column).toThrow(
        /never changed|only added/,
      );
    expect(() => database.run(`DELETE FROM ${table}`)).toThrow(/never changed|only added/);
    database.close();
    store = openStore({ folder });
  });

  test("one that was altered on the disk is refused", () => {
    const id = finished(store);
    store.close();
    const database = openDatabase(join(folder, "trialband.db"));
    database.exec("DROP TRIGGER records_no_update");
    database.run("UPDATE records SET bytes = CAST(replace(CAST(bytes AS TEXT), '20000', '20001') AS BLOB)");
    database.close();
    store = openStore({ folder });
    expect(() => store.read(id)).toThrow(/the record [0-9a-f]{64} was altered/);
    expect(store.audit().problems).toEqual([expect.stringMatching(/the record [0-9a-f]{64} was altered/)]);
  });
});

describe("notes", () => {
  test("have versions; one written over another unseen is refused", () => {
    const id = finished(store);
    expect(store.annotate(id, "first", 0)).toBe(1);
    expect(store.annotate(id, "second", 1)).toBe(2);
    expect(() => store.annotate(id, "third", 1)).toThrow(
      expect.objectContaining({
        code: "changed-meanwhile",
        message: expect.stringContaining("version 2; expected version 1"),
      }),
    );
    expect(reopened().head(id)).toMatchObject({ note: "second", noteVersion: 2 });
    store.annotate(id, null, 2);
    expect(store.head(id)).toMatchObject({ note: null, noteVersion: 3 });
  });

  test("are for runs that have ended", () => {
    expect(() => store.annotate(accepted(store), "early", null)).toThrow(/once it has ended/);
    expect(() => store.annotate("none", "early", null)).toThrow(/no run none/);
  });
});

describe("texts that were altered on the disk", () => {
  const alter = (change: (database: ReturnType<typeof openDatabase>) => void): void => {
    store.close();
    const database = openDatabase(join(folder, "trialband.db"));
    database.exec(unlockTables());
    change(database);
    database.exec(lockTables());
    database.close();
    store = openStore({ folder });
  };

  test.each([
    ["title", "UPDATE runs SET title = '{' WHERE id = ?", { title: "(cannot be read)" }],
    ["title", "UPDATE runs SET title = '5' WHERE id = ?", { title: "(cannot be read)" }],
    ["model", "UPDATE runs SET model = '' WHERE id = ?", { model: "(cannot be read)" }],
    ["verdict", `UPDATE runs SET verdict = '{"measurand":1}' WHERE id = ?`, { verdict: null }],
    ["note", "UPDATE notes SET text = '\"a' WHERE run = (SELECT seq FROM runs WHERE id = ?)", { note: null }],
  ])("of one run (%s, %#) fail no other run of a list, and that run names them", (field, sql, shown) => {
    const [sound, broken] = [finished(store), finished(store)];
    store.annotate(broken, "a note", null);
    store.annotate(sound, "another", null);
    alter((database) => database.run(sql, [broken]));
    const heads = store.heads();
    expect(heads.map(({ id }) => id)).toEqual([broken, sound]);
    expect(heads[0]).toMatchObject({ unreadable: [field], ...shown });
    expect(heads[1]).toMatchObject({ title: aStudy().title, note: "another" });
    expect(heads[1]).not.toHaveProperty("unreadable");
    expect(store.head(broken)).toEqual(heads[0]);
    expect(store.audit().problems).toContainEqual(
      expect.stringContaining(`run ${broken}: its ${field} cannot be read`),
    );
    store.remove(broken, null);
    expect(store.removed()).toMatchObject([{ id: broken, unreadable: [field] }]);
  });
});

describe("removal", () => {
  test("takes a run off the list, and it can be brought back with all that was kept", () => {
    const id = finished(store);
    store.annotate(id, "kept", 0);
    const before = store.head(id);
    store.remove(id);
    expect(reopened().heads()).toEqual([]);
    expect(store.read(id)).toBeNull();
    expect(() => store.annotate(id, "again", null)).toThrow(/no run/);
    expect(() => store.remove(id)).toThrow(/no run/);
    store.bringBack(id);
    expect(reopened().head(id)).toEqual(before);
    expect(store.read(id)!.record).toEqual(aRecord());
    store.bringBack(id);
    expect(() => store.bringBack("none")).toThrow(/no run none/);
    expect(store.audit().problems).toEqual([]);
  });

  test("what is removed is listed, the last first, with who removed it", () => {
    const [first, second, third] = [finished(store), finished(store), finished(store)];
    store.remove(second, "ada");
    store.remove(first, "rosa");
    store.bringBack(first, "rosa");
    store.remove(third);
    store.remove(first, "egon");
    expect(store.removed().map(({ id, removedBy }) => [id, removedBy])).toEqual([
      [first, "egon"],
      [third, null],
      [second, "ada"],
    ]);
    expect(store.removed()[0]).toMatchObject({ state: "finished", removedAt: expect.stringMatching(/^\d{4}-/) });
    expect(store.heads()).toEqual([]);
  });

  test("is refused while a run waits or goes on", () => {
    const id = accepted(store);
    expect(() => store.remove(id)).toThrow(/cancel it before/);
    store.begin(id);
    expect(() => store.remove(id)).toThrow(/cancel it before/);
  });

  test("60 removals, each with a note at once: whichever comes first, no removed run is back", () => {
    for (let i = 0; i < 60; i++) {
      const id = finished(store);
      const note = (): void => {
        try {
          store.annotate(id, `note ${i}`, null);
        } catch (error) {
          expect(error).toMatchObject({ code: "no-such-run" });
        }
      };
      if (i % 2 === 0) note();
      store.remove(id);
      note();
    }
    expect(reopened().heads()).toEqual([]);
    expect(store.audit()).toMatchObject({ problems: [], records: 1 });
  });
});

describe("checkpoints", () => {
  const pieces = [new Uint8Array([1, 2, 3]), new Uint8Array(100_000).fill(7)].map((bytes, piece) => ({ piece, bytes }));

  test("the last whole one is read back, byte for byte", () => {
    const id = accepted(store);
    store.begin(id);
    expect(store.readCheckpoint(id)).toBeNull();
    store.writePieces(id, pieces);
    store.writeCheckpoint(id, { trials: 10_000, maker: "one", state: new Uint8Array([9]) }, []);
    store.writePieces(id, [{ piece: 2, bytes: new Uint8Array([4]) }]);
    const found = reopened().readCheckpoint(id)!;
    expect(found).toMatchObject({ trials: 10_000, maker: "one" });
    expect([...found.state]).toEqual([9]);
    expect(found.pieces.get(1)).toEqual(pieces[1]!.bytes);
    expect(store.head(id)!.trials).toBe(10_000);
    store.writeCheckpoint(id, { trials: 20_000, maker: "one", state: new Uint8Array([8]) }, [1]);
    expect([...reopened().readCheckpoint(id)!.pieces.keys()]).toEqual([0, 2]);
  });

  test("one with an altered byte does not count", () => {
    const id = accepted(store);
    store.begin(id);
    store.writePieces(id, pieces);
    store.writeCheckpoint(id, { trials: 10_000, maker: "one", state: new Uint8Array([9]) }, []);
    store.close();
    const database = openDatabase(join(folder, "trialband.db"));
    database.run("UPDATE checkpoint_pieces SET bytes = x'010203' WHERE piece = 1");
    database.close();
    store = openStore({ folder });
    expect(store.readCheckpoint(id)).toBeNull();
  });

  test("nothing of it is left once the run has ended", () => {
    const id = accepted(store);
    store.begin(id);
    store.writePieces(id, pieces);
    store.writeCheckpoint(id, { trials: 10_000, maker: "one", state: new Uint8Array([9]) }, []);
    store.end(id, FINISHED);
    expect(store.readCheckpoint(id)).toBeNull();
    store.writeCheckpoint(id, { trials: 20_000, maker: "one", state: new Uint8Array([9]) }, []);
    expect(store.readCheckpoint(id)).toBeNull();
  });
});

test.skipIf(process.platform === "win32")("no file of a store can be read by others", () => {
  finished(store);
  for (const end of ["", "-wal", "-shm"])
    expect(statSync(join(folder, `trialband.db${end}`)).mode & 0o077, end).toBe(0);
});
