import { copyFileSync, existsSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeEach, describe, expect, test } from "vitest";
import { openDatabase } from "../../../server/store/database.ts";
import { hasStore, openStore } from "../../../server/store/open-store.ts";
import { unlockTables } from "../../../server/store/schema.ts";
import { accepted, aRecord, aStudy, emptyFolder, FINISHED, finished } from "./sample.ts";

let folder: string;
let file: string;
beforeEach(() => {
  folder = emptyFolder();
  file = join(emptyFolder(), "backup.db");
});

describe("drill", () => {
  test("the store is lost: a backup brings every run, record, note and deletion back into an empty folder", () => {
    const store = openStore({ folder });
    const kept = finished(store);
    store.annotate(kept, "checked", 0);
    store.remove(finished(store, aStudy({ notes: "removed" })));
    const heads = store.heads();
    expect(store.backup(file)).toMatchObject({ file, runs: 1 });
    store.close();
    rmSync(folder, { recursive: true });

    const another = emptyFolder();
    const restored = openStore({ folder: another });
    expect(restored.restore(file)).toEqual({ runs: 1, unfinished: 0, before: null });
    expect(restored.heads()).toEqual(heads);
    expect(restored.read(kept)!.record).toEqual(aRecord());
    expect(restored.audit().problems).toEqual([]);
    expect(readdirSync(another).filter((name) => name.endsWith(".part"))).toEqual([]);
    restored.close();
  });

  test("while a server goes on: another program's restore is seen by the next call, and what was there is set aside", () => {
    const serving = openStore({ folder });
    const old = finished(serving);
    const program = openStore({ folder });
    program.backup(file);
    const later = finished(serving, aStudy({ notes: "later" }));
    const { before, runs } = program.restore(file);
    expect(runs).toBe(1);
    expect(serving.heads().map(({ id }) => id)).toEqual([old]);
    const next = finished(serving, aStudy({ notes: "after" }));
    expect(serving.heads().map(({ id }) => id)).toEqual([next, old]);
    expect(serving.audit().problems).toEqual([]);
    // The restore itself can be undone.
    program.restore(before!);
    expect(serving.heads().map(({ id }) => id)).toEqual([later, old]);
    program.close();
    serving.close();
  });

  test("the trail says which one was replaced", () => {
    const store = openStore({ folder });
    store.backup(file);
    finished(store);
    const replaced = store.audit().last;
    store.restore(file);
    store.close();
    const database = openDatabase(join(folder, "trialband.db"));
    const { detail } = database.get<{ detail: string }>("SELECT detail FROM audit ORDER BY seq DESC LIMIT 1")!;
    expect(JSON.parse(detail)).toMatchObject({ file });
    // The backup of what was there is told of first.
    expect((JSON.parse(detail) as { replaced: string }).replaced).not.toBe(replaced);
    database.close();
  });
});

describe("backup", () => {
  test("holds what was written until its moment, whatever is written meanwhile, and is for its owner's eyes", () => {
    const store = openStore({ folder });
    finished(store);
    store.backup(file);
    finished(store, aStudy({ notes: "later" }));
    store.close();
    const copy = openDatabase(file);
    expect(copy.get<{ n: number }>("SELECT COUNT(*) AS n FROM runs")!.n).toBe(1);
    copy.close();
    if (process.platform !== "win32") expect(statSync(file).mode & 0o077).toBe(0);
  });

  test("overwrites no file, and leaves none behind that it could not write", () => {
    const store = openStore({ folder });
    writeFileSync(file, "mine");
    expect(() => store.backup(file)).toThrow(/exists already/);
    expect(readFileSync(file, "utf8")).toBe("mine");
    const nowhere = join(folder, "no", "such", "folder.db");
    expect(() => store.backup(nowhere)).toThrow(expect.objectContaining({ code: "cannot-write" }));
    expect(existsSync(`${nowhere}.part`)).toBe(false);
    store.close();
  });
});

describe("a restore that is refused changes nothing", () => {
  test.each([
    ["no database", (path: string): void => writeFileSync(path, "hello ".repeat(1000))],
    ["an empty file", (path: string): void => writeFileSync(path, "")],
    [
      "another database",
      (path: string): void => {
        const database = openDatabase(path);
        database.exec("CREATE TABLE other (x)");
        database.close();
      },
    ],
    [
      "a store with an altered record",
      (path: string): void => {
        const store = openStore({ folder: emptyFolder() });
        finished(store);
        store.backup(path);
        store.close();
        const database = openDatabase(path);
        database.exec(unlockTables());
        database.exec("UPDATE records SET bytes = CAST('{}' AS BLOB)");
        database.close();
      },
    ],
    [
      "a store of a later version",
      (path: string): void => {
        const store = openStore({ folder: emptyFolder() });
        store.backup(path);
        store.close();
        const database = openDatabase(path);
        database.exec("PRAGMA user_version = 99");
        database.close();
      },
    ],
    [
      "a store cut short",
      (path: string): void => {
        const from = emptyFolder();
        const store = openStore({ folder: from });
        finished(store);
        store.backup(path);
        store.close();
        writeFileSync(path, readFileSync(path).subarray(0, 40_000));
      },
    ],
  ])("%s", (_, write) => {
    write(file);
    const store = openStore({ folder });
    const id = finished(store);
    const { last } = store.audit();
    expect(() => store.restore(file)).toThrow(expect.objectContaining({ code: "bad-input" }));
    expect(store.audit().last).toBe(last);
    expect(store.heads().map((head) => head.id)).toEqual([id]);
    store.close();
  });

  test("while runs wait or go on", () => {
    const store = openStore({ folder });
    store.backup(file);
    const id = accepted(store);
    expect(() => store.restore(file)).toThrow(expect.objectContaining({ code: "not-finished" }));
    store.end(id, FINISHED);
    expect(store.restore(file).runs).toBe(0);
    store.close();
  });

  test("a file that is not there", () => {
    const store = openStore({ folder });
    expect(() => store.restore(join(folder, "none.db"))).toThrow(expect.objectContaining({ code: "no-such-file" }));
    store.close();
  });
});

test("a folder has a store once one was opened in it", () => {
  expect(hasStore(folder)).toBe(false);
  openStore({ folder }).close();
  expect(hasStore(folder)).toBe(true);
  copyFileSync(join(folder, "trialband.db"), file);
});
