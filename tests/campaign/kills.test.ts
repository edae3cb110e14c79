// The short form of the campaign of kills; npm run campaign has the long one.
import { expect, test } from "vitest";
import { killCampaign } from "./kills.ts";
import { LONG } from "../setup/long.ts";

test("kills at random moments: every acknowledged run, note and removal is accounted for", LONG, async () => {
  const counts = await killCampaign(4, 1);
  expect(counts.lost).toEqual([]);
  expect(counts.runs).toBeGreaterThan(10);
  expect(counts.notes).toBeGreaterThan(0);
  expect(counts.removals).toBeGreaterThan(0);
  expect(counts.interrupted).toBeGreaterThan(0);
});
