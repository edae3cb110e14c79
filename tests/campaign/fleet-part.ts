import { redisHere } from "../server/queue/redis.ts";
import { fleetCampaign } from "./fleet.ts";
import { hostsCampaign } from "./fleet-hosts.ts";
import { replayCampaign } from "./fleet-replay.ts";
import type { Part } from "./part.ts";

/** Trials a kill: 20 kills meet 10⁸ trials. */
const TRIALS_A_KILL = 5_000_000;
const WORKERS = 1000;
const BATCHES = 10_000;

/** Runs on a queue: workers, the queue and the coordinator are killed, a host is cut off, a thousand workers answer at once. */
export const fleet: Part = {
  option: "fleet",
  help: "kill one of three workers of a queue N times in a run, the queue and the coordinator once each; cut off a host; replay 1000 workers",
  usual: 20,
  async run(count, tell) {
    if (redisHere() === null) return { counts: {}, failures: ["there is no redis-server here"] };
    const { wrong, workersKilled, queuesKilled, coordinatorsKilled, seconds } = await fleetCampaign(
      count,
      TRIALS_A_KILL * count,
      1,
      tell,
    );
    tell("hosts in networks of their own");
    const hosts = await hostsCampaign((TRIALS_A_KILL * count) / 2);
    tell(`${WORKERS} workers answer`);
    const replay = await replayCampaign(WORKERS, BATCHES);
    return {
      counts: {
        "million trials": (TRIALS_A_KILL * count) / 1e6,
        "workers killed": workersKilled,
        "queues killed": queuesKilled,
        "coordinators killed": coordinatorsKilled,
        "s for that run": Math.round(seconds),
        "hosts, one of them cut off": hosts.hosts,
        "workers replayed": replay.workers,
        "answers of them": replay.answers,
        "answers a second": Math.round(replay.answersASecond),
        "bytes an answer": Math.round(replay.bytes),
        "MB of the coordinator": Math.round(replay.memory),
      },
      failures: [
        ...wrong,
        ...hosts.wrong,
        ...(workersKilled < count ? [`the run ended after ${workersKilled} kills; expected ${count}`] : []),
      ],
    };
  },
};
