import { describe, expect, test } from "vitest";
import type { Run } from "../../../viewer/page/run.ts";
import { announcement } from "../../../viewer/page/announce.ts";
import { LIBRARY } from "../../../viewer/page/library/listing.ts";
import { BLANK } from "../../../viewer/page/new-study/draft.ts";
import { isSameThing, NOTHING, shownRun, shownStudy, titleOf, type Shown } from "../../../viewer/page/shown.ts";
import type { State } from "../../../viewer/page/state.ts";

const run = (id: string, change: Partial<Run> = {}): Run => ({
  id,
  title: `Run ${id}`,
  state: "running",
  trials: 0,
  limit: 100,
  record: null,
  error: null,
  ...change,
});
const sheet = (shown: Run, cut = false): Shown => ({ kind: "run", run: shown, measurand: null, cut });
const study = (id: string | null, file: string | null = null): Shown => ({
  kind: "study",
  study: { id, file, document: { title: "Bath" } },
});
const draft = (): Shown => ({ kind: "draft", start: { ...BLANK } });

describe("what is on the sheet", () => {
  test.each<[string, Shown, Shown, boolean]>([
    ["a run that went on", sheet(run("a")), sheet(run("a", { trials: 50 }), true), true],
    ["two runs", sheet(run("a")), sheet(run("b")), false],
    ["a table with its columns read anew", study(null, "t.csv"), study(null, "t.csv"), true],
    ["two files", study(null, "t.csv"), study(null, "u.csv"), false],
    ["two studies", study("a"), study("b"), false],
    ["a study and its run", study("a"), sheet(run("a")), false],
    ["the list of runs, twice", NOTHING, { kind: "nothing" }, true],
    ["a draft and another like it", draft(), draft(), false],
    ["the list of surveys, read again", { kind: "surveys", surveys: [] }, { kind: "surveys", surveys: [] }, false],
  ])("%s: the same thing or not", (_, a, b, same) => {
    expect(isSameThing(a, b)).toBe(same);
    expect(isSameThing(b, a)).toBe(same);
    expect(isSameThing(a, a)).toBe(true);
  });

  test("has a title, and gives its run or study to those who need one", () => {
    expect(titleOf(NOTHING)).toBeNull();
    expect([titleOf(sheet(run("a"))), titleOf(study("a")), titleOf(draft())]).toEqual(["Run a", "Bath", "A new study"]);
    expect([shownRun(sheet(run("a")))?.id, shownRun(study("a")), shownStudy(NOTHING)]).toEqual(["a", null, null]);
    expect(shownStudy(study("a"))?.id).toBe("a");
  });
});

describe("announcements", () => {
  const state = (shown: Shown, trouble: string | null = null): State => ({
    studies: [],
    runs: [],
    own: [],
    drafts: [],
    laboratory: null,
    discarded: null,
    shown,
    library: LIBRARY,
    reading: {},
    busy: false,
    trouble: trouble === null ? null : { title: trouble, message: "", problems: [] },
  });

  test.each<[string, State, State, string | null]>([
    ["another run", state(NOTHING), state(sheet(run("a"))), "The run has started."],
    [
      "a cut",
      state(sheet(run("a"))),
      state(sheet(run("a"), true)),
      "The connection to the server is lost; trying again.",
    ],
    ["the end of a cut", state(sheet(run("a"), true)), state(sheet(run("a"))), "Connected again."],
    ["a quarter", state(sheet(run("a"))), state(sheet(run("a", { trials: 25 }))), "25 % of the trials."],
    ["less than a quarter more", state(sheet(run("a"))), state(sheet(run("a", { trials: 24 }))), null],
    ["a study", state(NOTHING), state(study("a")), null],
    [
      "a cut that also keeps the lists from being read",
      state(sheet(run("a"))),
      state(sheet(run("a"), true), "The lists cannot be read"),
      "The lists cannot be read. The connection to the server is lost; trying again.",
    ],
  ])("%s", (_, before, now, words) => {
    expect(announcement(now, before)).toBe(words);
  });
});
