import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import type { DraftSent } from "../../../viewer/api/drafts.ts";
import { openDatabase } from "../../../server/store/database.ts";
import { openStore } from "../../../server/store/open-store.ts";
import { unlockTables } from "../../../server/store/schema.ts";
import type { Store } from "../../../server/store/store.ts";
import { accepted, aStudy, emptyFolder, finished } from "./sample.ts";

let folder: string;
let now: Date;
let store: Store;
const open = (): Store => openStore({ folder, now: () => now });
beforeEach(() => {
  folder = emptyFolder();
  now = new Date("2026-11-29T10:00:00Z");
  store = open();
});
afterEach(() => store.close());

const reopened = (): Store => {
  store.close();
  return (store = open());
};
const titled = (title: string, own?: string): string =>
  store.accept({
    id: `${title}-${store.heads().length}`,
    study: aStudy({ title }),
    listed: null,
    limit: 20_000,
    requester: "",
    actor: null,
    ...(own === undefined ? {} : { own }),
  }).id;

describe("studies of the laboratory's own", () => {
  test("a run of a study in a request makes one; runs of listed studies make none", () => {
    accepted(store, aStudy(), "harrowfen/cold-store-4");
    expect(store.desk.ownStudies()).toEqual([]);
    const first = titled("Probe A");
    const second = titled("Probe A");
    titled("Probe B");
    expect(reopened().desk.ownStudies()).toMatchObject([
      { name: "Probe B", runs: 1, versions: 1 },
      { name: "Probe A", runs: 2, versions: 1 },
    ]);
    expect(store.head(first)!.own).toBe(store.head(second)!.own);
  });

  test("a new version may have another title; its study is called by it until somebody names it", () => {
    const { own } = store.head(titled("Probe A"))!;
    const later = titled("Probe A, mended", own!);
    expect(store.head(later)).toMatchObject({ own, studyVersion: 2 });
    expect(store.desk.ownStudies()).toMatchObject([{ id: own, name: "Probe A, mended", runs: 2, versions: 2 }]);
    store.desk.nameOwnStudy(own!, { name: "The probe of bath 3", tags: ["bath 3"] }, 0, "ada");
    titled("Probe A, mended again", own!);
    // A run that names no study goes with the one that last had its title.
    expect(store.head(titled("Probe A"))!.own).toBe(own);
    expect(reopened().desk.ownStudies()).toMatchObject([
      { id: own, name: "The probe of bath 3", tags: ["bath 3"], revision: 1, runs: 4 },
    ]);
    expect(store.audit().problems).toEqual([]);
  });

  test("a copy is a study of its own, from version 1", () => {
    const { own } = store.head(titled("Probe A"))!;
    const copy = store.head(titled("Probe A", "new"))!;
    expect(copy.own).not.toBe(own);
    expect(copy.studyVersion).toBe(1);
  });

  test("a study whose runs were removed is off the list until one is back", () => {
    const id = finished(store);
    store.remove(id);
    expect(store.desk.ownStudies()).toEqual([]);
    store.bringBack(id);
    expect(store.desk.ownStudies()).toHaveLength(1);
  });

  test("neither an unknown study nor a name that another reader has changed is written over", () => {
    expect(() => titled("Probe A", "gone")).toThrow("There is no study of the laboratory's own with the id gone.");
    expect(store.heads()).toEqual([]);
    const { own } = store.head(titled("Probe A"))!;
    store.desk.nameOwnStudy(own!, { name: "Mine", tags: [] }, 0, null);
    expect(() => store.desk.nameOwnStudy(own!, { name: "Yours", tags: [] }, 0, null)).toThrow("has version 1");
    expect(() => store.desk.nameOwnStudy("gone", { name: "x", tags: [] }, null, null)).toThrow("no study");
  });

  test("a name that was altered in the file is found by the check of the trail", () => {
    const { own } = store.head(titled("Probe A"))!;
    store.desk.nameOwnStudy(own!, { name: "Mine", tags: ["a"] }, 0, null);
    store.desk.setLaboratory({ ...plain(), name: "Harrowfen" }, 0, null);
    store.close();
    const database = openDatabase(join(folder, "trialband.db"));
    database.exec(unlockTables());
    database.run(`UPDATE own_studies SET tags = '["b"]'`);
    database.run(`UPDATE laboratory SET defaults = '{}'`);
    database.close();
    store = open();
    expect(store.audit().problems).toEqual([
      `study ${own}: its name and tags are not those that the trail has last`,
      "the laboratory's defaults are not those that the trail has last",
    ]);
  });
});

const sent = (title: string, change: Partial<DraftSent> = {}): DraftSent => ({
  title,
  own: null,
  form: { title, inputs: { a: "0,02" } },
  ...change,
});

describe("drafts", () => {
  test("several are kept over a restart, the one changed last first, until discarded; and taken up again", () => {
    store.desk.writeDraft("draft-one", sent("One"), 0);
    now = new Date("2026-11-29T11:00:00Z");
    store.desk.writeDraft("draft-two", sent("Two \u2028\0"), 0);
    now = new Date("2026-11-29T12:00:00Z");
    store.desk.writeDraft("draft-one", sent("One, longer"), 1);
    expect(reopened().desk.drafts()).toEqual([
      { id: "draft-one", title: "One, longer", own: null, revision: 2, made: at(10), changed: at(12) },
      { id: "draft-two", title: "Two \u2028\0", own: null, revision: 1, made: at(11), changed: at(11) },
    ]);
    expect(store.desk.readDraft("draft-one").form).toEqual(sent("One, longer").form);
    store.desk.discardDraft("draft-one");
    expect(store.desk.drafts().map(({ id }) => id)).toEqual(["draft-two"]);
    // A link to it still leads there, and writing on takes it up again.
    expect(store.desk.readDraft("draft-one").title).toBe("One, longer");
    expect(store.desk.takeUpDraft("draft-one").revision).toBe(2);
    store.desk.discardDraft("draft-one");
    store.desk.writeDraft("draft-one", sent("One, still longer"), 2);
    expect(store.desk.drafts().map(({ id }) => id)).toEqual(["draft-one", "draft-two"]);
  });

  test("one that was changed in another window is not written over", () => {
    store.desk.writeDraft("draft-one", sent("One"), 0);
    expect(() => store.desk.writeDraft("draft-one", sent("Mine"), 0)).toThrow("changed in another window");
    expect(store.desk.readDraft("draft-one").title).toBe("One");
    expect(() => store.desk.writeDraft("draft-two", sent("x", { own: "gone" }), 0)).toThrow("no study");
    for (const act of ["readDraft", "discardDraft", "takeUpDraft"] as const)
      expect(() => store.desk[act]("draft-none")).toThrow("There is no draft draft-none.");
  });
});

const at = (hour: number): string => `2026-11-29T${hour}:00:00.000Z`;
const plain = () => {
  const { version: _, ...defaults } = store.desk.laboratory();
  return defaults;
};

test("the laboratory's defaults: the usual ones first, then what was stated last, by whom in the trail", () => {
  expect(store.desk.laboratory()).toMatchObject({ name: "", probability: 0.95, digits: 2, version: 0 });
  const stated = { ...plain(), name: "Harrowfen Calibration Room", coverage: "factor", seed: "fresh" } as const;
  expect(store.desk.setLaboratory(stated, 0, "ada")).toEqual({ ...stated, version: 1 });
  expect(() => store.desk.setLaboratory(plain(), 0, null)).toThrow("have version 1");
  expect(reopened().desk.laboratory()).toEqual({ ...stated, version: 1 });
  expect(store.audit().problems).toEqual([]);
});
