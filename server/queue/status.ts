import { openBoard, WORKER_GONE } from "./board.ts";
import type { QueueSettings } from "./settings.ts";
import type { QueueState } from "../../viewer/api/queue.ts";
import { connectionOf, loadPackages, PREFIX } from "./connection.ts";
import type { Recipe } from "./messages.ts";

/** Opens a view of a queue, for people. @throws {Fault} `queue-unreachable` */
export async function openQueueView(settings: QueueSettings) {
  const { Queue } = await loadPackages();
  const board = await openBoard(settings);
  const queues = new Map<string, InstanceType<typeof Queue>>();
  const queueOf = (lane: string): InstanceType<typeof Queue> => {
    let queue = queues.get(lane);
    if (queue === undefined) {
      queue = new Queue(lane, { connection: connectionOf(settings), prefix: PREFIX, skipMetasUpdate: true });
      queue.on("error", () => undefined);
      queues.set(lane, queue);
    }
    return queue;
  };
  return {
    async read(): Promise<QueueState> {
      const [workers, draws] = await Promise.all([board.workers(), board.draws()]);
      const runs = await Promise.all(
        draws.map(async ({ draw, title, lane, recipe, trials, silent }) => {
          const { limit, study } = JSON.parse(recipe) as Recipe;
          const counts = await queueOf(lane).getJobCounts("wait", "active", "delayed");
          const served = workers.filter((worker) => worker.silent < WORKER_GONE && worker.lanes.includes(lane));
          const refusals = await board.refusals(draw);
          return {
            title,
            trials,
            limit,
            adaptive: study.trials === "adaptive",
            waiting: (counts["wait"] ?? 0) + (counts["delayed"] ?? 0),
            active: counts["active"] ?? 0,
            workers: served.length,
            silent,
            refusals: Object.entries(refusals).map(([worker, words]) => ({ worker, words })),
          };
        }),
      );
      return {
        address: settings.shown,
        workers: workers
          .map(({ name, build, threads, active, trials, rate, since, silent }) => ({
            name,
            version: build.version,
            threads,
            active,
            trials,
            rate,
            since,
            silent,
            gone: silent >= WORKER_GONE,
          }))
          .toSorted((a, b) => (a.name < b.name ? -1 : 1)),
        runs,
      };
    },
    async close(): Promise<void> {
      await Promise.allSettled([...queues.values()].map((queue) => queue.close()));
      board.redis.disconnect();
    },
  };
}

export type QueueView = Awaited<ReturnType<typeof openQueueView>>;
