import { expect, test } from "vitest";
import type { OwnStudy } from "../../../../viewer/api/own-studies.ts";
import type { RunHead } from "../../../../viewer/api/runs.ts";
import { foundStudies, versionsOf } from "../../../../viewer/page/own-studies/search.ts";

const study = (id: string, name: string, tags: readonly string[]): OwnStudy => ({
  id,
  name,
  tags,
  revision: 0,
  made: "2026-11-01T10:00:00Z",
  model: "additive",
  last: "2026-11-01T10:00:00Z",
  runs: 1,
  versions: 1,
});
const run = (id: string, own: string | null, studyVersion: number, note: string | null = null): RunHead => ({
  id,
  title: `Run ${id}`,
  model: "additive",
  state: "finished",
  startedAt: "2026-11-01T10:00:00Z",
  trials: 20_000,
  limit: 20_000,
  verdict: null,
  study: null,
  studyVersion,
  own,
  note,
  noteVersion: 0,
  notKept: null,
});
const STUDIES = [study("a", "Filling line", ["bath 3"]), study("b", "Cold store −40 °C", [])];
const RUNS = [run("4", "a", 2), run("3", null, 1), run("2", "a", 1, "with the old reference"), run("1", "a", 2)];

test.each([
  ["", ["a", "b"]],
  ["BATH line", ["a"]],
  ["-40", ["b"]],
  ["old reference", ["a"]],
  ["bath 9", []],
])("%j finds %j", (search, found) => {
  expect(foundStudies(STUDIES, RUNS, search).map(({ id }) => id)).toEqual(found);
});

test("runs stand under the version that each was made from, newest first, and nobody else's among them", () => {
  expect(versionsOf({ id: "a" }, RUNS).map(({ version, runs }) => [version, runs.map(({ id }) => id)])).toEqual([
    [2, ["4", "1"]],
    [1, ["2"]],
  ]);
});
