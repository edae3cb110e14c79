import { join } from "node:path";
import { redisHere, startRedis } from "../../../server/queue/redis.ts";
import { ratiosOf } from "../arithmetic.ts";
import { openContestant, type Contestant } from "../contestant.ts";
import { ours, type Places } from "../contestants.ts";
import { disagreements, measureRounds, timesOf, type Answers } from "../rounds.ts";
import { row, type Row } from "../row.ts";

const TRIALS = 100_000_000;
/** Two batches a thread of two: each takes a thread 10 s. */
const SLOW_TRIALS = 40_000;
const FEWEST = 3;

/** Runs on a queue beside those of a pool: what the way through it costs, and what more workers gain. */
export async function measureFleet(places: Places, rounds: number): Promise<{ rows: Row[]; faults: string[] }> {
  if (redisHere() === null) return { rows: [], faults: ["there is no redis-server here"] };
  const redis = await startRedis();
  const pool = await openContestant(ours(places, 2));
  const far = await openContestant({ ...ours(places, 1, "ours-queue"), words: wordsOf(places, redis.url) });
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
  try {
    await worker();
    const one = await measureRounds([far], "W1", TRIALS, Math.min(rounds, FEWEST));
    await worker();
    const two = await measureRounds([pool, far], "W1", TRIALS, rounds);
    const slow = await slowRounds([pool, far], Math.min(rounds, FEWEST));
    await worker();
    const three = await measureRounds([far], "W1", TRIALS, Math.min(rounds, FEWEST));
    const times = (answers: Answers): number[] => timesOf(answers, far.id);
    const beside = (answers: Answers): ReturnType<typeof ratiosOf> =>
      ratiosOf(times(answers), timesOf(answers, pool.id));
    const scaled = (more: Answers): ReturnType<typeof ratiosOf> => ratiosOf(times(one), times(more).slice(0, FEWEST));
    const [w1, slowly, second, third] = [beside(two), beside(slow), scaled(two), scaled(three)];
    const note = (n: number): string => `Redis on loopback, workers of one thread, median of ${n} rounds`;
    return {
      rows: [
        row("fleet", "W1 at 10^8 trials: two workers of a queue over two threads", "≤1.1", w1.median, {
          spread: w1,
          unit: "×",
          note: note(rounds),
        }),
        row("fleet", "a model of 1 ms: two workers of a queue over two threads", "≤1.02", slowly.median, {
          spread: slowly,
          unit: "×",
          note: `${SLOW_TRIALS} trials; ${note(Math.min(rounds, FEWEST))}`,
        }),
        row("fleet", "W1 at 10^8 trials by a queue: one worker's time over that of two", null, second.median, {
          spread: second,
          unit: "×",
          note: note(FEWEST),
        }),
        row("fleet", "W1 at 10^8 trials by a queue: one worker's time over that of three", null, third.median, {
          spread: third,
          unit: "×",
          note: note(FEWEST),
        }),
      ],
      faults: [two, slow].flatMap((answers) => disagreements(answers)),
    };
  } finally {
    for (const contestant of [pool, far, ...workers]) await contestant.close();
    await redis.close();
  }
}

const wordsOf = ({ root, made }: Places, url: string): string[] => [join(made, "ours-child.mjs"), root, "1", url];

/** Without warming: a run of this model takes as long as all rounds of another. */
async function slowRounds(contestants: readonly Contestant[], rounds: number): Promise<Answers> {
  const answers = new Map(contestants.map(({ id }) => [id, [] as Awaited<ReturnType<Contestant["ask"]>>[]]));
  for (let round = 0; round < rounds; round++)
    for (const contestant of round % 2 === 0 ? contestants : contestants.toReversed())
      answers.get(contestant.id)!.push(await contestant.ask("slow", SLOW_TRIALS, round + 1));
  return answers;
}
