import { expect, test } from "vitest";
import { batchesOfNext, countsOf, type Sizing } from "../../../server/queue/sizing.ts";

const usual: Sizing = {
  first: 4_000_000,
  limit: 100_000_000,
  batch: 10_000,
  measurands: 1,
  adaptive: false,
  threads: 2,
  secondsABatch: 0.0005,
};

test.each([
  ["before it is known how long a batch takes", { secondsABatch: null }, 1],
  ["a second and a half of work, but no more than a share of what is left", {}, 960],
  ["a slow model", { secondsABatch: 0.1 }, 15],
  ["a model of which a batch takes minutes", { secondsABatch: 100 }, 1],
  ["towards the end: a share of what is left", { first: 96_000_000 }, 100],
  ["towards the end, but not too short to hand out", { first: 99_900_000 }, 10],
  ["the end itself", { first: 99_990_001 }, 1],
  ["trials that are kept, by their bytes", { first: 0 }, 90],
  ["trials of three measurands, by their bytes", { first: 0, measurands: 3 }, 15],
  ["an adaptive run, which may end after any batch", { adaptive: true }, 10],
  ["many threads", { threads: 1000 }, 100],
])("%s", (_what, changes, batches) => {
  expect(batchesOfNext({ ...usual, ...changes })).toBe(batches);
});

test("the last batch is cut short", () => {
  expect(countsOf(80_000, 3, 10_000, 105_000)).toEqual([10_000, 10_000, 5000]);
});
