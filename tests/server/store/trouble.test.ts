import { spawnSync } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { openDatabase } from "../../../server/store/database.ts";
import { openStore } from "../../../server/store/open-store.ts";
import { accepted, aStudy, emptyFolder, FINISHED, finished } from "./sample.ts";

/** A small disk of its own in memory, where this machine lets one be made; else `null`. */
function smallDisk(): { readonly folder: string; readonly remove: () => void } | null {
  if (process.platform !== "linux" || process.getuid?.() !== 0) return null;
  const folder = emptyFolder();
  if (spawnSync("mount", ["-t", "tmpfs", "-o", "size=1m", "tmpfs", folder]).status !== 0) return null;
  return { folder, remove: () => void spawnSync("umount", ["-l", folder]) };
}

describe("a full disk", () => {
  test.each(["on a small disk, where this machine lets one be made", "by a bound on the file"])(
    "%s: refused in words, and nothing half written",
    (how) => {
      const disk = how.startsWith("on a small disk") ? smallDisk() : null;
      const folder = disk?.folder ?? emptyFolder();
      const store = openStore({ folder, ...(disk === null ? { pages: 200 } : {}) });
      try {
        const kept: string[] = [];
        const fill = (): void => {
          for (let i = 0; i < 1000; i++) {
            const id = accepted(store, aStudy({ notes: `${i} ${"x".repeat(20_000)}` }));
            kept.push(id);
          }
        };
        expect(fill).toThrow(
          expect.objectContaining({ code: "cannot-keep", message: expect.stringContaining("the disk is full") }),
        );
        expect(kept.length).toBeGreaterThan(5);
        expect(store.heads().map(({ id }) => id)).toEqual(kept.toReversed());
        expect(() => store.end(kept[0]!, FINISHED)).toThrow(expect.objectContaining({ code: "cannot-keep" }));
        expect(store.head(kept[0]!)!.state).toBe("waiting");
        expect(store.audit().problems).toEqual([]);
      } finally {
        store.close();
        disk?.remove();
      }
    },
  );
});

describe("the check at the start", () => {
  test("a folder that cannot be written", () => {
    const file = join(emptyFolder(), "file");
    writeFileSync(file, "");
    expect(() => openStore({ folder: join(file, "store") })).toThrow(
      expect.objectContaining({ code: "cannot-keep", message: expect.stringContaining("cannot be written") }),
    );
  });

  test("a file that is no store, and a folder in its place", () => {
    const folder = emptyFolder();
    writeFileSync(join(folder, "trialband.db"), "hello ".repeat(1000));
    expect(() => openStore({ folder })).toThrow(/is not a store of Trialband/);
    const another = emptyFolder();
    mkdirSync(join(another, "trialband.db"));
    expect(() => openStore({ folder: another })).toThrow(expect.objectContaining({ code: "cannot-keep" }));
  });

  test("a page with other bytes in it", () => {
    const folder = emptyFolder();
    const store = openStore({ folder });
    for (let i = 0; i < 10; i++) finished(store, aStudy({ notes: `${i} ${"x".repeat(10_000)}` }));
    store.close();
    const path = join(folder, "trialband.db");
    const database = openDatabase(path);
    const root = database.get<{ rootpage: number }>("SELECT rootpage FROM sqlite_schema WHERE name = 'runs'")!.rootpage;
    database.close();
    spawnSync("dd", ["if=/dev/urandom", `of=${path}`, "bs=4096", `seek=${root - 1}`, "count=1", "conv=notrunc"]);
    expect(() => openStore({ folder })).toThrow(expect.objectContaining({ code: "cannot-keep" }));
  });

  test("a store of a later version", () => {
    const folder = emptyFolder();
    openStore({ folder }).close();
    const database = openDatabase(join(folder, "trialband.db"));
    database.exec("PRAGMA user_version = 99");
    database.close();
    expect(() => openStore({ folder })).toThrow(/The store has version 99; expected at most/);
  });
});

test("a value that the library would end the process on is refused", () => {
  const database = openDatabase(":memory:");
  for (const value of [true, 1n, undefined, {}, Symbol("s")])
    expect(() => database.get("SELECT ?", [value as unknown as string])).toThrow(/cannot be kept in a column/);
  expect(() => database.get("SELECT ?", ["a\0b"])).toThrow(/NUL/);
  expect(database.get<{ x: null }>("SELECT ? AS x", [null])!.x).toBeNull();
  database.close();
});
