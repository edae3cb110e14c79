// The short form of the campaign of cancelled runs; npm run campaign has the long one.
import { expect, test } from "vitest";
import { cancelCampaign } from "./cancels.ts";
import { LONG } from "../setup/long.ts";

test("cancelled runs give their memory back", LONG, async () => {
  const figures = await cancelCampaign(30);
  const [, , early] = figures;
  const last = figures.at(-1)!;
  expect(last.cancelled).toBe(30);
  // Twenty more runs of at least 4 MB each came and went; what is left may differ by what a collector has not
  // taken yet; runs that kept their memory would leave 80 MB.
  expect(last.heap + last.arrays - (early!.heap + early!.arrays)).toBeLessThan(24);
});
