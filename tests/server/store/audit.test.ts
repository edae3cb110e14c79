import { createHash } from "node:crypto";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { readAudit, START } from "../../../server/store/audit-trail.ts";
import { openDatabase, type Database } from "../../../server/store/database.ts";
import { openStore } from "../../../server/store/open-store.ts";
import { unlockTables } from "../../../server/store/schema.ts";
import type { AuditReport } from "../../../server/store/audit-check.ts";
import { accepted, emptyFolder, finished } from "./sample.ts";

let folder: string;
let database: Database;
/** A store with every kind of entry, its triggers lifted: what somebody with the file can do. */
beforeEach(() => {
  folder = emptyFolder();
  const store = openStore({ folder, now: () => new Date("2026-11-29T10:00:00Z") });
  const id = finished(store);
  store.annotate(id, "seen \u2028", 0, "someone");
  store.remove(id);
  store.bringBack(id);
  accepted(store);
  store.close();
  database = openDatabase(join(folder, "trialband.db"));
});
afterEach(() => database.close());

const report = (expected: string | null = null): AuditReport => {
  const store = openStore({ folder });
  try {
    return store.audit(expected);
  } finally {
    store.close();
  }
};

test("the entries of a life, in order, each with the digest of the one before", () => {
  const entries = readAudit(database);
  expect(entries.map(({ action }) => action)).toEqual([
    "store made",
    "run accepted",
    "run ended",
    "note written",
    "run removed",
    "run brought back",
    "run accepted",
  ]);
  expect(entries.map(({ previous }) => previous)).toEqual([START, ...entries.slice(0, -1).map(({ digest }) => digest)]);
  expect(report()).toMatchObject({ entries: 7, records: 1, studies: 1, problems: [], last: entries.at(-1)!.digest });
});

test("a digest is that of the entry's canonical JSON, written out here by hand (RFC 8785: keys sorted, no white space)", () => {
  const first = readAudit(database)[0]!;
  const text = `{"action":"store made","actor":null,"at":"2026-11-29T10:00:00.000Z","detail":{},"previous":"${START}","seq":1,"subject":null}`;
  expect(first.digest).toBe(createHash("sha256").update(text).digest("hex"));
});

describe("whatever is changed is found", () => {
  test.each([
    ["at", "'2026-11-28T10:00:00.000Z'"],
    ["actor", "'\"another\"'"],
    ["action", "'run removed'"],
    ["subject", "'run-0'"],
    ["detail", "'{}'"],
    ["previous", `'${"1".repeat(64)}'`],
    ["digest", `'${"2".repeat(64)}'`],
    ["seq", "1000"],
  ])("%s of one entry", (column, value) => {
    database.exec(unlockTables());
    database.exec(`UPDATE audit SET ${column} = ${value} WHERE seq = 4`);
    expect(report().problems.join("\n")).toMatch(/entry (4|5|1000) /);
  });

  test.each([1, 3, 6])("entry %s taken away", (seq) => {
    database.exec(unlockTables());
    database.exec(`DELETE FROM audit WHERE seq = ${seq}`);
    expect(report().problems.join("\n")).toMatch(/is missing|follows/);
  });

  test("the last entries taken away: by the tables, and by a digest that was noted", () => {
    const noted = report().last;
    database.exec(unlockTables());
    database.exec("DELETE FROM audit WHERE seq = 7");
    expect(report().problems).toEqual([expect.stringMatching(/^run \S+ is in no entry of the trail$/)]);
    expect(report(noted)).toMatchObject({
      expected: false,
      problems: expect.arrayContaining([expect.stringContaining(`no entry has the digest ${noted}`)]),
    });
  });

  test.each([
    ["state = 'failed', record = NULL", /the state is failed; expected finished/],
    ["removed = '2026-11-29T10:00:00.000Z'", /removed is true; expected false/],
  ])("a run's row: %s", (change, found) => {
    database.exec(`UPDATE runs SET ${change} WHERE seq = 1`);
    expect(report().problems.join("\n")).toMatch(found);
  });

  test("a note taken away, a run taken away", () => {
    database.exec(unlockTables());
    database.exec("DELETE FROM notes");
    expect(report().problems.join("\n")).toMatch(/the number of notes is 0; expected 1/);
    database.exec("DELETE FROM runs WHERE seq = 2");
    expect(report().problems.join("\n")).toMatch(/run \S+ is missing/);
  });
});
