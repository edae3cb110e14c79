// The short form of the campaign of cancelled runs; npm run campaign has the long one.
import { expect, test } from "vitest";
import { cancelCampaign } from "./cancels.ts";

test("cancelled runs give their memory back", async () => {
  const figures = await cancelCampaign(30);
  const [, , early] = figures;
  const last = figures.at(-1)!;
  expect(last.cancelled).toBe(30);
  // Twenty more runs of at least 4 MB each came and went; what is left may differ by what three of them kept.
  expect(last.heap + last.arrays - (early!.heap + early!.arrays)).toBeLessThan(12);
}, 120_000);
