// Kept calibrations in the store: they outlive it, a backup has them, and the audit trail finds what was altered.
import { join } from "node:path";
import { beforeEach, expect, test } from "vitest";
import { openDatabase } from "../../../server/store/database.ts";
import { openStore } from "../../../server/store/open-store.ts";
import { emptyFolder } from "./sample.ts";

const HEAD = { title: "Two probes \0", laboratory: null, points: 4, instruments: ["HF-034", "HF-035"] };
const CONTENT = { calibration: { title: HEAD.title }, reference: null, overdue: null, files: [] };

let folder: string;
let id: string;
beforeEach(() => {
  folder = emptyFolder();
  const store = openStore({ folder });
  const { calibrations } = store.desk;
  id = calibrations.keep(CONTENT, HEAD, "tarrow");
  calibrations.setRun(id, "HF-035", "run-1", null);
  calibrations.name(id, { name: "Named", note: "seen" }, 2, "tarrow");
  calibrations.remove(id, "tarrow");
  calibrations.bringBack(id, "tarrow");
  store.close();
});

test("opened again, it is as it was, and the trail tells its life", () => {
  const store = openStore({ folder });
  expect(store.desk.calibrations.read(id)).toMatchObject({
    name: "Named",
    note: "seen",
    instruments: [
      { id: "HF-034", run: null },
      { id: "HF-035", run: "run-1" },
    ],
    revision: 3,
    content: CONTENT,
  });
  expect(store.trail(5).map(({ action, actor, subject }) => [action, actor, subject])).toEqual([
    ["calibration kept", "tarrow", id],
    ["calibration run", null, id],
    ["calibration named", "tarrow", id],
    ["calibration removed", "tarrow", id],
    ["calibration brought back", "tarrow", id],
  ]);
  expect(store.audit().problems).toEqual([]);
  store.close();
});

test("a document without an instrument drops its run", () => {
  const store = openStore({ folder });
  store.desk.calibrations.change(id, { title: "x" }, { ...HEAD, instruments: ["HF-034"] }, 3, null);
  expect(store.desk.calibrations.read(id)).toMatchObject({
    instruments: [{ id: "HF-034", run: null }],
    content: { calibration: { title: "x" }, files: [] },
  });
  expect(store.audit().problems).toEqual([]);
  store.close();
});

test.each([
  ["name", "'\"Another\"'"],
  ["note", "NULL"],
  ["laboratory", "'\"Another\"'"],
  ["points", "5"],
  ["instruments", "'[]'"],
  ["runs", "'{}'"],
  ["content", "'{}'"],
  ["revision", "7"],
  ["removed", "'2026-11-29T10:00:00.000Z'"],
])("another %s is found by the audit", (column, value) => {
  const database = openDatabase(join(folder, "trialband.db"));
  database.exec(`UPDATE calibrations SET ${column} = ${value}`);
  database.close();
  const store = openStore({ folder });
  expect(store.audit().problems).toEqual([`calibration ${id}: it is not in the state that the trail has last`]);
  store.close();
});

test("one that was taken away is found, and a backup brings it back", () => {
  const file = join(emptyFolder(), "backup.db");
  const store = openStore({ folder });
  store.backup(file);
  const database = openDatabase(join(folder, "trialband.db"));
  database.exec("DELETE FROM calibrations");
  database.close();
  expect(store.audit().problems).toEqual([`calibration ${id} is missing`]);
  store.restore(file);
  expect(store.desk.calibrations.list()).toMatchObject([{ id, name: "Named" }]);
  expect(store.audit().problems).toEqual([]);
  store.close();
});
