import { boardOn } from "../../server/queue/board.ts";
import { connect } from "../../server/queue/connection.ts";
import { startRedis } from "../server/queue/redis.ts";
import { numbers } from "./chance.ts";
import { startRun, startWorkerProcess, type FleetProcess } from "./fleet-processes.ts";

/** What was done and found. */
export interface FleetCounts {
  readonly workersKilled: number;
  readonly queuesKilled: number;
  readonly coordinatorsKilled: number;
  /** Seconds of the run on the queue, all that was killed included. */
  readonly seconds: number;
  /** What should not have happened. */
  readonly wrong: readonly string[];
}

const STUDY = "examples/harrowfen/steriliser-134.json";
const WORKERS = 3;
const LOOK_EVERY = 100;
/** Part of the run in which everything is killed. */
const UNTIL = 0.85;

/**
 * A run of some trials by three workers, of which one is killed again and again; halfway the queue is killed too and
 * started with what it had written, and then the coordinator. At the end the record is that of one thread, bit for bit,
 * and nothing is left in the queue.
 */
export async function fleetCampaign(
  kills: number,
  trials: number,
  seed: number,
  tell: (line: string) => void,
): Promise<FleetCounts> {
  const random = numbers(seed);
  const redis = await startRedis("--appendonly", "yes", "--appendfsync", "everysec");
  const workers: FleetProcess[] = Array.from({ length: WORKERS }, () => startWorkerProcess(redis.url));
  const board = boardOn(await connect(redis.settings));
  const counts = { workersKilled: 0, queuesKilled: 0, coordinatorsKilled: 0 };
  const wrong: string[] = [];
  const name = `fleet ${seed}`;
  try {
    const alone = await startRun(STUDY, trials, name, null).results;
    const began = performance.now();
    let run = startRun(STUDY, trials, name, redis.url);
    const state = { running: true };
    const ended = (one: typeof run): void => {
      void one.results.then(
        (results) => {
          // A coordinator that was killed has another in its place.
          if (results !== null) state.running = false;
        },
        () => (state.running = false),
      );
    };
    ended(run);
    while (state.running) {
      await new Promise((resolve) => setTimeout(resolve, LOOK_EVERY));
      const [draw] = await board.draws();
      if (draw === undefined) continue;
      const part = draw.trials / trials / UNTIL;
      tell(`${Math.round(100 * part * UNTIL)} %, ${counts.workersKilled} workers killed`);
      if (counts.workersKilled < kills && part >= counts.workersKilled / kills) {
        const place = Math.floor(random() * WORKERS);
        await workers[place]!.kill();
        workers[place] = startWorkerProcess(redis.url);
        counts.workersKilled += 1;
      }
      if (counts.queuesKilled === 0 && part >= 0.4) {
        counts.queuesKilled += 1;
        await redis.kill();
        await new Promise((resolve) => setTimeout(resolve, 500 * random()));
        await redis.restart();
      }
      if (state.running && counts.coordinatorsKilled === 0 && part >= 0.7) {
        counts.coordinatorsKilled += 1;
        await run.kill();
        run = startRun(STUDY, trials, name, redis.url);
        ended(run);
      }
    }
    const results = await run.results;
    if (results !== alone) wrong.push(`the record's figures have the digest ${results}; expected ${alone}`);
    for (const key of await board.redis.keys("trialband:*"))
      if (/:(draw|answers|plan|refusals):/.test(key)) wrong.push(`${key} is left in the queue`);
    return { ...counts, seconds: (performance.now() - began) / 1000, wrong };
  } finally {
    board.redis.disconnect();
    await Promise.all(workers.map((worker) => worker.kill()));
    await redis.close();
  }
}
