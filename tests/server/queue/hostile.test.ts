// What others write into the queue keeps nobody from drawing. Needs dist/ and a redis-server.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { openBoard, type Board } from "../../../server/queue/board.ts";
import { encode } from "../../../server/queue/codec.ts";
import { connectionOf, loadPackages, PREFIX } from "../../../server/queue/connection.ts";
import { openFleet } from "../../../server/queue/fleet.ts";
import { NEWS } from "../../../server/queue/messages.ts";
import { queueFrom } from "../../../server/queue/settings.ts";
import { openQueueView } from "../../../server/queue/status.ts";
import { plainLane } from "../../../server/queue/trust.ts";
import { startWorker } from "../../../server/queue/worker.ts";
import { runStudy } from "../../../server/runs/run-study.ts";
import { loadStudyDocument } from "../../../server/shelves/study.ts";
import { LONG } from "../../setup/long.ts";
import { readExample } from "../../read-example.ts";
import { redisHere, startRedis, type TestRedis } from "./redis.ts";

describe.skipIf(redisHere() === null)("a queue that others write into", () => {
  let redis: TestRedis;
  let board: Board;
  beforeAll(async () => {
    redis = await startRedis();
    board = await openBoard(redis.settings);
  });
  afterAll(async () => {
    board.redis.disconnect();
    await redis.close();
  });
  const study = (seed: string) =>
    loadStudyDocument({ ...readExample("verdicts/another-factor"), trials: 30_000, seed }, null);
  const worker = () =>
    startWorker(redis.settings, {
      threads: 1,
      trust: { named: new Map(), all: false },
      seconds: 600,
      tell: () => undefined,
    });
  const fleetOf = () => openFleet(redis.settings, { notice: () => undefined });

  test("nonsense in every place is passed over", async () => {
    const client = board.redis;
    await client.sadd("trialband:draws", "words", "other", "gone", "list");
    await client.hset("trialband:draw:words", "recipe", "{", "lane", plainLane);
    await client.hset("trialband:draw:other", "recipe", '{"build":null}', "lane", plainLane);
    await client.rpush("trialband:draw:list", "no draw");
    await client.hset("trialband:workers", "a", "{", "b", "{}", "c", '{"name":7}');
    await client.zadd("trialband:workers:seen", 9e12, "a", 9e12, "b", 9e12, "c");
    const { Queue } = await loadPackages();
    const jobs = new Queue(plainLane, { connection: connectionOf(redis.settings), prefix: PREFIX });
    await jobs.addBulk(
      [{}, { draw: "words" }, { draw: "gone", first: 0, counts: [1] }].map((data) => ({ name: "x", data })),
    );
    const [drawing, fleet, view] = await Promise.all([worker(), fleetOf(), openQueueView(redis.settings)]);
    try {
      for (const news of ["{", "null", "7", '{"ended":{}}']) await client.publish(NEWS, news);
      const loaded = await study("nonsense");
      const [there, here] = [await runStudy(loaded, { fleet: async () => fleet }), await runStudy(loaded)];
      expect(there.record.seal.results).toBe(here.record.seal.results);
      const { workers, runs } = await view.read();
      expect(workers.map(({ name }) => name)).toEqual([drawing.name]);
      expect(runs).toEqual([]);
    } finally {
      await Promise.all([drawing.close(), fleet.close(), view.close(), jobs.close()]);
    }
  });

  test("answers that add up to nothing end a run with the range named, once nobody draws it", async () => {
    const { Worker } = await loadPackages();
    const liar = new Worker(
      plainLane,
      async ({ data }) => {
        const { draw, first, counts } = data as { draw: string; first: number; counts: readonly number[] };
        const kept = counts.map((count) => ({ first, count, leftOut: 0, measurands: [], joint: null }));
        const bytes = encode({ ok: true, kept, condensed: [], seconds: 1 });
        await board.putAnswer(draw, `${first}-${counts.length}`, bytes, { worker: "liar", trials: 0 });
      },
      { connection: connectionOf(redis.settings), prefix: PREFIX },
    );
    const fleet = await fleetOf();
    try {
      await expect(runStudy(await study("lies"), { fleet: async () => fleet })).rejects.toMatchObject({
        code: "queue-unreachable",
        message: expect.stringMatching(/are none to what was asked: trials 0 to 9999, 4 times/) as string,
      });
    } finally {
      await Promise.all([liar.close(), fleet.close()]);
    }
  });

  test("another program's keys under the same names are said", async () => {
    const settings = queueFrom(`${redis.url}/3`, "test");
    const other = board.redis.duplicate({ db: 3 });
    await other.set("trialband:draws", "mine");
    await expect(openQueueView(settings)).rejects.toThrow(
      /another program's key trialband:draws \(string; expected set\)/,
    );
    other.disconnect();
  });

  test("two coordinators of the same run: each ends with its bits", LONG, async () => {
    const [drawing, one, two] = await Promise.all([worker(), fleetOf(), fleetOf()]);
    try {
      const loaded = await study("twice");
      const both = await Promise.all([one, two].map((fleet) => runStudy(loaded, { fleet: async () => fleet })));
      const here = await runStudy(loaded);
      for (const { record } of both) expect(record.seal.results).toBe(here.record.seal.results);
    } finally {
      await Promise.all([drawing.close(), one.close(), two.close()]);
    }
  });
});
