// A run on the workers of a queue is the run of one thread, bit for bit. Needs dist/ and a redis-server.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { Fault } from "../../../server/errors.ts";
import { openFleet } from "../../../server/queue/fleet.ts";
import { startWorker, type FleetWorker } from "../../../server/queue/worker.ts";
import type { Fleet } from "../../../server/runs/far-drawing.ts";
import { runStudy } from "../../../server/runs/run-study.ts";
import { loadStudyDocument } from "../../../server/shelves/study.ts";
import { LONG } from "../../setup/long.ts";
import { readExample } from "../../read-example.ts";
import { redisHere, startRedis, type TestRedis } from "./redis.ts";

const NO_TRUST = { named: new Map<string, string>(), all: false };

describe.skipIf(redisHere() === null)("with a queue", () => {
  let redis: TestRedis;
  let workers: readonly FleetWorker[];
  let fleet: Fleet;
  const said: string[] = [];
  beforeAll(async () => {
    redis = await startRedis();
    const options = { threads: 1, trust: NO_TRUST, seconds: 600, tell: (words: string) => void said.push(words) };
    workers = await Promise.all([startWorker(redis.settings, options), startWorker(redis.settings, options)]);
    fleet = await openFleet(redis.settings, { notice: (words) => void said.push(words) });
  });
  afterAll(async () => {
    await Promise.all([fleet.close(), ...workers.map((worker) => worker.close())]);
    await redis.close();
  });
  const far = { fleet: async () => fleet };

  const sameBits = async (id: string, changes: object): Promise<void> => {
    const loaded = await loadStudyDocument({ ...readExample(id), ...changes }, null);
    const [here, there] = [await runStudy(loaded), await runStudy(loaded, far)];
    expect(there.record.seal.results).toBe(here.record.seal.results);
  };

  const cut = ["harrowfen/steriliser-134", { trials: 123_456 }] as const;
  test.each([
    ["a fixed number of trials, the last batch cut short", ...cut],
    ["until the figures settle", "harrowfen/cold-store-4", { trials: "adaptive", seed: "far" }],
    ["several measurands and their joint figures", "published/impedance", { trials: 50_000 }],
  ] as const)("%s", (_what, id, changes) => sameBits(id, changes));
  test.each([
    ["a sweep, its points abreast", "harrowfen/range", { trials: 30_000 }],
    ["more trials than are kept: the others come counted", "verdicts/another-factor", { trials: 2_345_678 }],
    ["several measurands, counted", "published/impedance", { trials: 2_100_000 }],
    ["adaptive beyond the trials that are kept", "verdicts/another-factor", { ...LONG_ADAPTIVE }],
  ] as const)("%s", LONG, (_what, id, changes) => sameBits(id, changes));

  test("a model that has no value at a trial ends the run with the trial and its inputs, and the workers go on", async () => {
    const loaded = await loadStudyDocument({ ...readExample("verdicts/another-factor"), ...POLE }, null);
    const alone = (await runStudy(loaded).catch((error: unknown) => error)) as Error;
    const found = (await runStudy(loaded, far).catch((error: unknown) => error)) as Fault;
    expect(found.message).toBe(alone.message);
    expect(found.message).toMatch(/at trial \d+ \(.* = /);
    await runStudy(await loadStudyDocument({ ...readExample(cut[0]), ...cut[1], seed: "after" }, null), far);
  });
});

/** Figures with more digits than a few trials settle. */
const LONG_ADAPTIVE = { trials: "adaptive", significantDigits: 2, maximumTrials: 2_300_000, seed: "far" };

/** An equation that is not defined below 0, which a thousandth of the trials are. */
const POLE = {
  title: "A root of what may be negative",
  model: "equation",
  parameters: { equation: "y = sqrt(a)", quantities: {} },
  inputs: { a: { distribution: "normal", estimate: 3, standardUncertainty: 1 } },
  trials: 50_000,
};
