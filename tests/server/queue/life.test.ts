// What happens to a run on a queue: answers that come twice or late, an end, a coordinator or a queue that is gone.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { openCondensed, prepare } from "../../../engine/internal.ts";
import { boardOn, type Board } from "../../../server/queue/board.ts";
import { encode } from "../../../server/queue/codec.ts";
import { connect } from "../../../server/queue/connection.ts";
import { openFleet } from "../../../server/queue/fleet.ts";
import { build, laneOf, nameOf, type Recipe, type WorkerNote } from "../../../server/queue/messages.ts";
import { openQueueView } from "../../../server/queue/status.ts";
import { startWorker, type FleetWorker } from "../../../server/queue/worker.ts";
import { runStudy } from "../../../server/runs/run-study.ts";
import { loadStudyDocument } from "../../../server/shelves/study.ts";
import { LONG } from "../../setup/long.ts";
import { readExample } from "../../read-example.ts";
import { redisHere, startRedis, type TestRedis } from "./redis.ts";

const study = (changes: object) => loadStudyDocument({ ...readExample("verdicts/another-factor"), ...changes }, null);

describe.skipIf(redisHere() === null)("with a queue", () => {
  let redis: TestRedis;
  let board: Board;
  beforeAll(async () => {
    // With what it writes kept at once, so that a kill loses nothing.
    redis = await startRedis("--appendonly", "yes", "--appendfsync", "always");
    board = boardOn(await connect(redis.settings));
  });
  afterAll(async () => {
    board.redis.disconnect();
    await redis.close();
  });
  const said: string[] = [];
  const workerOn = (on: TestRedis, lostAfter = 2): Promise<FleetWorker> =>
    startWorker(on.settings, {
      threads: 1,
      trust: { named: new Map(), all: false },
      seconds: 600,
      lostAfter,
      tell: (words) => void said.push(words),
    });
  const fleetOn = (on: TestRedis) => openFleet(on.settings, { notice: (words) => void said.push(words) });

  const NOTE: WorkerNote = { name: "m/1", build, threads: 1, lanes: [], active: 0, trials: 0, rate: 0, since: "" };
  const by = (trials: number) => ({ worker: "w1", trials });
  const countedFor = async (name: string): Promise<number | undefined> =>
    (await board.workers()).find((one) => one.name === name)?.trials;

  test("an answer counts once, and not at all once its draw has ended", async () => {
    await board.note("w1", NOTE);
    expect(await board.claim("d1", "me", "{}", "lane", "title")).toBe("begun");
    expect(await board.claim("d1", "another", "{}", "lane", "title")).toBe("held");
    expect(await board.putAnswer("d1", "0-1", Buffer.from("first"), by(10_000))).toBe(true);
    expect(await board.putAnswer("d1", "0-1", Buffer.from("again"), by(10_000))).toBe(false);
    expect(await countedFor("m/1")).toBe(10_000);
    expect(String(await board.answer("d1", "0-1"))).toBe("first");
    expect([await board.beat("d1", "me", 0), await board.beat("d1", "another", 0)]).toEqual(["held", "lost"]);
    await board.end("d1");
    expect(await board.putAnswer("d1", "10000-1", Buffer.from("late"), by(10_000))).toBe(false);
    expect(await board.beat("d1", "me", 0)).toBe("gone");
    expect(await board.redis.keys("trialband:*d1*")).toEqual([]);
    // A word of the worker that was written before its answer takes nothing away; one that knows more adds it.
    await board.note("w1", NOTE);
    expect(await countedFor("m/1")).toBe(10_000);
    await board.note("w1", { ...NOTE, trials: 30_000 });
    expect(await countedFor("m/1")).toBe(30_000);
    await board.forget("w1");
    expect(await board.redis.keys("trialband:workers*")).toEqual([]);
  });

  test("a run that is cancelled leaves nothing behind, and its workers draw for others", async () => {
    const [worker, fleet] = await Promise.all([workerOn(redis), fleetOn(redis)]);
    const view = await openQueueView(redis.settings);
    try {
      const abort = new AbortController();
      const far = { fleet: async () => fleet };
      const running = runStudy(await study({ trials: 1_000_000_000 }), {
        ...far,
        signal: abort.signal,
        onProgress: ({ trials }) => {
          if (trials > 100_000) abort.abort();
        },
      });
      await expect(running).rejects.toMatchObject({ code: "cancelled" });
      await expect.poll(async () => (await view.read()).workers[0]?.active, { timeout: 60_000 }).toBe(0);
      // An interrupt does not wait for a queue that is slow to forget the run.
      await expect.poll(async () => (await view.read()).runs, { timeout: 60_000 }).toEqual([]);
      const loaded = await study({ trials: 40_000 });
      const [there, here] = [await runStudy(loaded, far), await runStudy(loaded)];
      expect(there.record.seal.results).toBe(here.record.seal.results);
    } finally {
      await Promise.all([worker.close(), fleet.close(), view.close()]);
    }
  });

  test(
    "a run goes on from the answers that a coordinator has left, and takes none that was altered",
    LONG,
    async () => {
      const loaded = await study({ trials: 60_000, seed: "left" });
      const here = await runStudy(loaded);
      // What a coordinator leaves that is killed: a plan, the answer to one job, bytes that are none to another.
      const prepared = prepare(loaded.model, loaded.study);
      const reference = loaded.reference as { readonly id: string; readonly parameters: Record<string, unknown> };
      const recipe: Recipe = {
        build,
        model: { kind: "registered", id: reference.id, parameters: reference.parameters },
        study: { ...loaded.study, sweep: null },
        limit: prepared.limit,
      };
      const fleet = await fleetOn(redis);
      const first = await fleet.claim(loaded, prepared, undefined);
      const [draw] = await board.redis.smembers("trialband:draws");
      expect((await board.draws())[0]).toMatchObject({ lane: laneOf(recipe), recipe: JSON.stringify(recipe) });
      expect(first.state).toBeNull();
      const size = prepared.batch;
      const jobs = [
        { first: 0, counts: [size, size] },
        { first: 2 * size, counts: [size] },
      ];
      await board.addToPlan(
        draw!,
        jobs.map((job) => [job.first, job.counts.length] as const),
      );
      const left = openCondensed(prepared.source)(0, jobs[0]!.counts, () => false);
      await board.putAnswer(draw!, nameOf(jobs[0]!), encode({ ok: true, ...left!, seconds: 1 }), by(2 * size));
      await board.putAnswer(draw!, nameOf(jobs[1]!), Buffer.from("no answer"), by(size));
      await fleet.close();
      const [worker, next] = await Promise.all([workerOn(redis), fleetOn(redis)]);
      try {
        const there = await runStudy(loaded, { fleet: async () => next });
        expect(there.record.seal.results).toBe(here.record.seal.results);
        const view = await openQueueView(redis.settings);
        const drawn = (await view.read()).workers.reduce((sum, { trials }) => sum + trials, 0);
        // Counted with each answer, so that it is whole as soon as the run is.
        expect(drawn).toBe(60_000 - 2 * size);
        await view.close();
      } finally {
        await Promise.all([worker.close(), next.close()]);
      }
    },
  );

  test.each([
    ["with what it has written", ["--appendonly", "yes"]],
    ["with nothing", []],
  ])("a queue that is killed and comes back %s", LONG, async (_what, options) => {
    const own = await startRedis(...options);
    const [worker, fleet] = await Promise.all([workerOn(own), fleetOn(own)]);
    try {
      const loaded = await study({ trials: 6_000_000 });
      let kills = 0;
      const running = runStudy(loaded, {
        fleet: async () => fleet,
        onProgress: ({ trials }) => {
          if (kills === 0 && trials > 500_000) {
            kills += 1;
            void own.kill().then(() => own.restart());
          }
        },
      });
      const there = await running;
      expect(kills).toBe(1);
      expect(there.record.seal.results).toBe((await runStudy(loaded)).record.seal.results);
    } finally {
      await Promise.all([worker.close(), fleet.close()]);
      await own.close();
    }
  });
});
