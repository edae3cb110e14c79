import { describe, expect, test } from "vitest";
import type { RunHead } from "../../../viewer/api/runs.ts";
import { LIBRARY, listed, matches } from "../../../viewer/page/library/listing.ts";
import { statementWords } from "../../../viewer/present/statement.ts";

const run = (id: string, over: Partial<RunHead>): RunHead => ({
  id,
  title: id,
  model: "bath-comparison",
  state: "finished",
  startedAt: "2026-03-02T09:30:00.000Z",
  trials: 1,
  limit: 1,
  verdict: { measurand: "e", validated: true },
  study: null,
  studyVersion: 1,
  own: null,
  note: null,
  noteVersion: 0,
  notKept: null,
  ...over,
});
const RUNS = [
  run("a", { title: "Probe 10", startedAt: "2026-03-03T09:30:00.000Z", verdict: { measurand: "e", validated: false } }),
  run("b", { title: "Probe 9", state: "failed", verdict: null, note: "fluid was cold" }),
  run("c", { title: "Freezer at −40 °C", startedAt: "2026-03-01T09:30:00.000Z" }),
  run("d", { title: "Probe 11", state: "running", verdict: null, startedAt: "2026-03-04T09:30:00.000Z" }),
];
const order = (over: Partial<typeof LIBRARY>): string =>
  listed(RUNS, { ...LIBRARY, ...over })
    .map(({ id }) => id)
    .join("");

describe("the list of runs", () => {
  test("can be put in order by date, title, verdict and state, either way", () => {
    expect(order({})).toBe("dabc");
    expect(order({ direction: 1 })).toBe("cbad");
    // Numbers within titles count as numbers.
    expect(order({ order: "title", direction: 1 })).toBe("cbad");
    expect(order({ order: "verdict", direction: 1 })).toBe("acdb");
    expect(order({ order: "state", direction: 1 })).toBe("dbac");
  });

  test("is searched by every word, in titles, models, notes, verdicts and states", () => {
    expect(order({ search: "probe cold" })).toBe("b");
    expect(order({ search: "-40 freezer" })).toBe("c");
    expect(order({ search: "COLD fluid" })).toBe("b");
    expect(order({ search: "running" })).toBe("d");
    expect(order({ search: "not validated" })).toBe("a");
    expect(order({ search: "probe furnace" })).toBe("");
    expect(matches("  ", ["anything"])).toBe(true);
  });
});

test("a statement in words, whatever its kind", () => {
  expect(statementWords({ distribution: "rectangular", estimate: 0, halfWidth: 0.003, source: "survey" })).toBe(
    "rectangular: estimate 0, half-width 0.003",
  );
  expect(statementWords({ distribution: "readings", values: [1, 3, 2] })).toBe(
    "t from repeated indications: 3 indications from 1 to 3",
  );
  expect(statementWords(undefined)).toContain("no distribution stated");
});
