// A store as version 0.4 left it (its schema is version 1), dumped as SQL: two studies of one title each with three runs
// and one run, a listed study, a note, and a removed run.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { openDatabase } from "../../../server/store/database.ts";
import { openStore } from "../../../server/store/open-store.ts";
import { SCHEMA_VERSION } from "../../../server/store/schema.ts";
import type { Store } from "../../../server/store/store.ts";
import { accepted, emptyFolder } from "./sample.ts";

/** Writes that store into a file. The dump has its tables in order of their names, not of what refers to what. */
function write(file: string): void {
  const database = openDatabase(file);
  database.exec("PRAGMA foreign_keys = OFF");
  database.exec(readFileSync(join(import.meta.dirname, "store-1.sql"), "utf8"));
  database.exec("PRAGMA user_version = 1");
  database.close();
}

let folder: string;
let store: Store;
beforeEach(() => {
  folder = emptyFolder();
  write(join(folder, "trialband.db"));
  store = openStore({ folder });
});
afterEach(() => store.close());

test("the studies of one title become a study of its own, with the versions and runs they had", () => {
  const heads = store.heads();
  expect(heads.map(({ id, studyVersion }) => [id, studyVersion])).toEqual([
    ["listed", 1],
    ["changed", 2],
    ["again", 1],
    ["first", 1],
  ]);
  const own = store.desk.ownStudies();
  expect(own).toMatchObject([
    {
      name: "Probe at 37 °C",
      tags: [],
      revision: 0,
      runs: 3,
      versions: 2,
      made: heads.find(({ id }) => id === "first")!.startedAt,
    },
  ]);
  expect(heads.map((head) => head.own)).toEqual([null, own[0]!.id, own[0]!.id, own[0]!.id]);
  expect(store.head("again")).toMatchObject({ note: "with another seed", noteVersion: 1 });
  // A removed run has its study too, once it is brought back.
  store.bringBack("other");
  expect(store.desk.ownStudies().map(({ name }) => name)).toEqual(["Another “probe”", "Probe at 37 °C"]);
});

test("a further run of a title goes on counting that study's versions, and one seen before keeps its number", () => {
  const { study } = store.read("changed")!;
  const before = store.head("changed")!;
  const again = accepted(store, { ...study, seed: "7" });
  expect(store.head(again)).toMatchObject({ own: before.own, studyVersion: 2 });
  const changed = accepted(store, { ...study, notes: "and once more" });
  expect(store.head(changed)).toMatchObject({ own: before.own, studyVersion: 3 });
});

test("nothing of the trail or of what it says is touched, and the store opens as today's from then on", () => {
  expect(store.audit().problems).toEqual([]);
  const database = openDatabase(join(folder, "trialband.db"));
  expect(database.get("PRAGMA user_version")).toMatchObject({ user_version: SCHEMA_VERSION });
  database.close();
  store.close();
  store = openStore({ folder });
  expect(store.audit().problems).toEqual([]);
});

test("a backup made before is brought up to date as it is restored", () => {
  const file = join(folder, "old.db");
  write(file);
  const empty = openStore({ folder: emptyFolder() });
  try {
    expect(empty.restore(file).runs).toBe(4);
    expect(empty.desk.ownStudies().map(({ name }) => name)).toEqual(["Probe at 37 °C"]);
    expect(empty.audit().problems).toEqual([]);
  } finally {
    empty.close();
  }
});
