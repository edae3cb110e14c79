import { readFileSync } from "node:fs";
import { join } from "node:path";
import { crc32 } from "node:zlib";
import { KEPT_TRIALS, openCondensed, prepare } from "../../engine/internal.ts";
import { boardOn } from "../../server/queue/board.ts";
import { encode } from "../../server/queue/codec.ts";
import { connect, connectionOf, loadPackages, PREFIX } from "../../server/queue/connection.ts";
import { nameOf, type Job, type Recipe } from "../../server/queue/messages.ts";
import { packageRoot } from "../../server/package-root.ts";
import { loadStudyDocument } from "../../server/shelves/study.ts";
import { startRedis } from "../server/queue/redis.ts";
import { greatestMemory, startRun } from "./fleet-processes.ts";

const STUDY = "examples/harrowfen/steriliser-134.json";
/** Connections that hand out the jobs, each to so many of the workers. */
const TAKERS = 20;

export interface ReplayCounts {
  readonly workers: number;
  readonly answers: number;
  readonly answersASecond: number;
  /** Greatest resident memory of the coordinator, MB. */
  readonly memory: number;
  /** Mean bytes of an answer. */
  readonly bytes: number;
}

/**
 * What a coordinator sustains: so many workers answer every job at once, with a batch that was recorded. They say that a
 * batch takes two seconds, so that a job is one batch and the coordinator has as much to do for its trials as it can have.
 */
export async function replayCampaign(workers: number, batches: number): Promise<ReplayCounts> {
  const redis = await startRedis();
  const board = boardOn(await connect(redis.settings));
  const { Worker } = await loadPackages();
  const document: unknown = JSON.parse(readFileSync(join(packageRoot(), STUDY), "utf8"));
  const { model, study } = await loadStudyDocument(document, null);
  const prepared = prepare(model, { ...study, trials: 10_000 * batches });
  const draw = openCondensed(prepared.source);
  const size = prepared.batch;
  const recorded = [0, 200 * size].map((at) => encode({ ok: true, ...draw(at, [size], () => false), seconds: 2 }));
  let [answers, bytes] = [0, 0];
  let [first, last] = [0, 0];
  const takers: { close(force: boolean): Promise<void> }[] = [];
  const answer = async ({ data }: { readonly data: Job }): Promise<void> => {
    if (data.counts.length !== 1) throw new Error(`a job of ${data.counts.length} batches; expected one`);
    const whole = relabelled(recorded[data.first + size <= KEPT_TRIALS ? 0 : 1]!, data.first);
    if (answers === 0) first = performance.now();
    answers += 1;
    bytes += whole.length;
    await board.putAnswer(data.draw, nameOf(data), whole, { worker: "w0", trials: data.counts[0]! });
    last = performance.now();
  };
  const run = startRun(STUDY, size * batches, "replay", redis.url);
  try {
    while ((await board.draws()).length === 0) await new Promise((resolve) => setTimeout(resolve, 50));
    const { lane, recipe } = (await board.draws())[0]!;
    const { build } = JSON.parse(recipe) as Recipe;
    const note = async (): Promise<void> => {
      for (let i = 0; i < workers; i++)
        await board.note(`w${i}`, {
          name: `replay/${i}`,
          build,
          threads: 1,
          lanes: [lane],
          active: 1,
          trials: 0,
          rate: 0,
          since: "",
        });
    };
    await note();
    // One that is under way as the queue is left fails; nobody needs it any more.
    const timer = setInterval(() => void note().catch(() => undefined), 3000);
    for (let i = 0; i < TAKERS; i++) {
      const taker = new Worker(lane, answer as never, {
        connection: connectionOf(redis.settings),
        prefix: PREFIX,
        concurrency: Math.ceil(workers / TAKERS),
        // All of them share this process, which is late for each.
        lockDuration: 600_000,
      });
      taker.on("error", () => undefined);
      takers.push(taker);
    }
    let memory = 0;
    const weighing = setInterval(() => (memory = Math.max(memory, greatestMemory(run.process.pid!))), 200);
    await run.results;
    clearInterval(timer);
    clearInterval(weighing);
    return {
      workers,
      answers,
      answersASecond: (answers - 1) / ((last - first) / 1000),
      memory,
      bytes: bytes / answers,
    };
  } finally {
    await Promise.allSettled(takers.map((taker) => taker.close(true)));
    board.redis.disconnect();
    await run.kill();
    await redis.close();
  }
}

/** The same answer for another trial: its first number is the batch's first trial (`codec.ts`). */
function relabelled(bytes: Buffer, first: number): Buffer {
  const other = Buffer.from(bytes);
  other.writeDoubleLE(first, 16 + other.readUInt32LE(8));
  other.writeUInt32LE(crc32(other.subarray(8)), 4);
  return other;
}
