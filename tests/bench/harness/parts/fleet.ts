import { join } from "node:path";
import { replayCampaign } from "../../../campaign/fleet-replay.ts";
import { redisHere, startRedis } from "../../../server/queue/redis.ts";
import type { Answer } from "../answer.ts";
import { ratiosOf } from "../arithmetic.ts";
import { openContestant, type Contestant } from "../contestant.ts";
import { ours, type Places } from "../contestants.ts";
import { processorSeconds } from "../processor-time.ts";
import { disagreements } from "../rounds.ts";
import { row, type Row } from "../row.ts";

const TRIALS = 100_000_000;
/** Trials by which a contestant is warm. */
const WARMING = 12_000_000;
/** Two batches a thread of two: each takes a thread 10 s. */
const SLOW_TRIALS = 40_000;
const FEWEST = 3;
/** Simulated workers, and batches of the run that they answer. */
const SIMULATED = { workers: 1000, batches: 3000 };

/** What a run took, all processes together. */
interface Taken {
  readonly answer: Answer;
  readonly seconds: number;
  readonly processor: number;
}

/**
 * Runs on a queue beside those of a pool: what the way through it costs, what more workers gain, and what a coordinator
 * sustains.
 */
export async function measureFleet(places: Places, rounds: number): Promise<{ rows: Row[]; faults: string[] }> {
  if (redisHere() === null) return { rows: [], faults: ["there is no redis-server here"] };
  const redis = await startRedis();
  const pool = await openContestant(ours(places, 2));
  const far = await openContestant({
    ...ours(places, 1, "ours-queue"),
    words: [join(places.made, "ours-child.mjs"), places.root, "1", redis.url],
  });
  const workers: Contestant[] = [];
  const worker = async (): Promise<void> => {
    workers.push(
      await openContestant({
        id: `worker-${workers.length}`,
        title: "a worker",
        program: process.execPath,
        words: [join(places.made, "fleet-child.mjs"), redis.url],
      }),
    );
  };
  const ask = async (contestant: Contestant, workload: string, trials: number, seed: number): Promise<Taken> => {
    const pids = contestant === pool ? [pool.pid] : [far.pid, redis.pid, ...workers.map(({ pid }) => pid)];
    const before = processorSeconds(pids);
    const answer = await contestant.ask(workload, trials, seed);
    return { answer, seconds: answer.milliseconds / 1000, processor: processorSeconds(pids) - before };
  };
  /** The contestants take turns; the first of a round is another each time. */
  const inTurns = async (
    contestants: readonly Contestant[],
    workload: string,
    trials: number,
    times: number,
  ): Promise<ReadonlyMap<Contestant, readonly Taken[]>> => {
    const found = new Map(contestants.map((contestant) => [contestant, [] as Taken[]]));
    for (let round = 0; round < times; round++)
      for (const contestant of round % 2 === 0 ? contestants : contestants.toReversed())
        found.get(contestant)!.push(await ask(contestant, workload, trials, round + 1));
    return found;
  };
  const few = Math.min(rounds, FEWEST);
  const w1 = async (contestants: readonly Contestant[], times: number): ReturnType<typeof inTurns> => {
    for (const contestant of contestants) await ask(contestant, "W1", WARMING, 1_000_000_007);
    return inTurns(contestants, "W1", TRIALS, times);
  };
  try {
    await worker();
    const one = (await w1([far], few)).get(far)!;
    await worker();
    const two = await w1([pool, far], rounds);
    // Not warmed: a run of this model takes as long as all rounds of another.
    const slow = await inTurns([pool, far], "slow", SLOW_TRIALS, few);
    await worker();
    const three = (await w1([far], few)).get(far)!;
    const simulated = await replayCampaign(SIMULATED.workers, SIMULATED.batches);

    const beside = (what: string, limit: string, taken: typeof two, times: number): Row[] =>
      (
        [
          ["time", "seconds"],
          ["processor time", "processor"],
        ] as const
      ).flatMap(([words, name]) => {
        const values = [far, pool].map((contestant) => taken.get(contestant)!.map((found) => found[name]));
        const spread = ratiosOf(values[0]!, values[1]!);
        // A system that does not tell what its processes use.
        if (!Number.isFinite(spread.median)) return [];
        return row("fleet", `${what}: ${words} by two workers of a queue over two threads`, limit, spread.median, {
          spread,
          unit: "×",
          note: `Redis on loopback, workers of one thread, all processes counted; ${least(values[0]!)} s over ${least(values[1]!)} s at least, median of ${times} rounds`,
        });
      });
    const scaled = (words: string, more: readonly Taken[]): Row => {
      const spread = ratiosOf(
        one.map(({ seconds }) => seconds),
        more.slice(0, few).map(({ seconds }) => seconds),
      );
      return row(
        "fleet",
        `W1 at 10^8 trials by a queue: one worker's time over that of ${words}`,
        null,
        spread.median,
        {
          spread,
          unit: "×",
          note: `two cores have coordinator, queue and workers; median of ${few} rounds`,
        },
      );
    };
    const note = `recorded answers replayed: ${simulated.answers} of ${Math.round(simulated.bytes / 1000)} kB, a batch each`;
    const all = `${SIMULATED.workers} simulated workers`;
    return {
      rows: [
        ...beside("W1 at 10^8 trials", "≤1.1", two, rounds),
        ...beside("a model of 1 ms", "≤1.02", slow, few),
        scaled("two", two.get(far)!),
        scaled("three", three),
        row("fleet", `${all}: answers a second`, null, simulated.answersASecond, { note }),
        row("fleet", `${all}: greatest resident memory of the coordinator`, null, simulated.memory, {
          unit: "MB",
          note,
        }),
      ],
      faults: [two, slow].flatMap((taken) =>
        disagreements(new Map([...taken].map(([{ id }, found]) => [id, found.map(({ answer }) => answer)]))),
      ),
    };
  } finally {
    for (const contestant of [pool, far, ...workers]) await contestant.close();
    await redis.close();
  }
}

const least = (values: readonly number[]): string => Math.min(...values).toFixed(2);
