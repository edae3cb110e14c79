// The short form of the campaign of runs on a queue; npm run campaign has the long one.
import { describe, expect, test } from "vitest";
import { LONG } from "../setup/long.ts";
import { redisHere } from "../server/queue/redis.ts";
import { fleetCampaign } from "./fleet.ts";
import { hostsCampaign } from "./fleet-hosts.ts";
import { replayCampaign } from "./fleet-replay.ts";

const quiet = (): void => undefined;

describe.skipIf(redisHere() === null)("a run on a queue", () => {
  test("workers, the queue and the coordinator killed: the record is that of one thread", LONG, async () => {
    const counts = await fleetCampaign(3, 8_000_000, 1, quiet);
    expect(counts.wrong).toEqual([]);
    expect(counts.workersKilled).toBeGreaterThan(0);
  });

  test("a host that is cut off and comes back", LONG, async () => {
    const { hosts, wrong } = await hostsCampaign(8_000_000);
    if (hosts === 0) console.warn("This machine allows no network namespaces: no host was cut off.");
    expect(wrong).toEqual([]);
  });

  test("a thousand workers that answer at once", LONG, async () => {
    const { answers, memory } = await replayCampaign(1000, 400);
    expect(answers).toBeGreaterThanOrEqual(400);
    // A coordinator of ten thousand answers takes no more.
    expect(memory).toBeLessThan(600);
  });
});
