import { randomUUID } from "node:crypto";
import { hostname } from "node:os";
import type { Job as EngineJob, Worker } from "bullmq";
import { Fault, reportOf } from "../errors.ts";
import { openThreads } from "../runs/pool/threads.ts";
import { openBoard } from "./board.ts";
import { encode } from "./codec.ts";
import { connectionOf, loadPackages, PREFIX } from "./connection.ts";
import { openDraws } from "./open-draws.ts";
import { build, nameOf, NEWS, readNews, type Job } from "./messages.ts";
import { probeOf } from "./probe.ts";
import { rateMeter } from "./rate-meter.ts";
import type { QueueSettings } from "./settings.ts";
import { suspectOf } from "./suspect.ts";
import type { ThreadResult, ThreadTask } from "./thread.ts";
import { plainLane, type Trust } from "./trust.ts";

export interface WorkerOptions {
  /** Name by which others see it; without it machine and process. */
  readonly name?: string;
  readonly threads: number;
  readonly trust: Trust;
  /** Seconds that the trials of one job may take. */
  readonly seconds: number;
  /** Seconds without a word after which its jobs go to others. */
  readonly lostAfter?: number;
  /** Called with what a person should know: what it draws, what it refuses and why. */
  readonly tell: (words: string) => void;
}

export interface FleetWorker {
  /** Name by which others see it. */
  readonly name: string;
  /** Gives the jobs it is at back to the queue and ends. */
  close(): Promise<void>;
}

/** Milliseconds between two words of a worker, and two looks at which draws there are. */
const BEAT_EVERY = 1000;
/** Seconds after which a job counts as lost if its worker does not renew its lock, which it does twice in them. */
export const USUAL_LOST_AFTER = 10;
/** Workers that may be lost with one job before it counts as what ends them. */
const MOST_LOST = 5;
/** Workers that are lost with one job of a model of one's own before its trials are looked through for the one that does it. */
const LOST_AND_PROBED = 2;
/** Milliseconds a thread has to come back once its draw is not wanted. */
const GRACE = 500;

/**
 * Takes jobs of a queue until it is closed.
 *
 * @throws {Fault} `queue-unreachable`
 */
export async function startWorker(
  settings: QueueSettings,
  {
    name = `${hostname()}/${process.pid}`,
    threads: count,
    trust,
    seconds,
    lostAfter = USUAL_LOST_AFTER,
    tell,
  }: WorkerOptions,
): Promise<FleetWorker> {
  const { Worker: WorkerClass, DelayedError } = await loadPackages();
  const board = await openBoard(settings);
  const id = randomUUID();
  const threads = await openThreads<ThreadTask, ThreadResult>("fleet.cjs", count);
  const draws = openDraws(board, trust, name, tell);
  const lanes = new Map<string, Worker>();
  const since = new Date().toISOString();
  const meter = rateMeter();
  let active = 0;
  let closing = false;

  /** Draws a job's trials, within their time. @returns what is answered; `null` if nobody wants it any more */
  const trialsOf = async (job: Job, lost: number): Promise<Uint8Array | null> => {
    const draw = await draws.get(job.draw);
    if (draw === null) return null;
    const task: ThreadTask = {
      draw: job.draw,
      model: draw.place,
      study: draw.study,
      first: job.first,
      counts: job.counts,
      stop: draw.stop,
      trace: null,
    };
    let late = false;
    const within = async <T>(work: (signal: AbortSignal) => Promise<T>): Promise<T> => {
      const abort = new AbortController();
      const end = (): void => abort.abort();
      const ended = (): void => void setTimeout(end, GRACE).unref();
      if (draw.ended.signal.aborted) ended();
      draw.ended.signal.addEventListener("abort", ended);
      const timer = setTimeout(() => {
        late = true;
        end();
      }, 1000 * seconds);
      try {
        return await work(abort.signal);
      } finally {
        clearTimeout(timer);
        draw.ended.signal.removeEventListener("abort", ended);
      }
    };
    try {
      if (draw.place.kind === "module" && lost >= LOST_AND_PROBED) {
        tell(
          `Workers were lost with trials ${job.first} on: they are looked through one by one, in a process of their own.`,
        );
        const { first, counts } = job;
        const suspected = { first, counts, model: draw.place, study: draw.study };
        const found = await probeOf(suspected, lost === MOST_LOST, seconds, draw.ended.signal);
        if (draw.ended.signal.aborted) return null;
        if (found !== null) return encode({ ok: false, report: reportOf(found) });
      }
      const { bytes } = await within((signal) => threads.run(task, signal));
      return bytes.length === 0 ? null : bytes;
    } catch (error) {
      if (draw.ended.signal.aborted) return null;
      const cause = late
        ? new Fault(
            "worker-lost",
            `the trials of a job had not finished after ${seconds} s, the limit of --time-limit.`,
          )
        : error;
      const report = reportOf(
        cause instanceof Fault && cause.code === "worker-lost"
          ? await within((signal) => suspectOf(task, threads, signal, cause))
          : cause,
      );
      return draw.ended.signal.aborted ? null : encode({ ok: false, report });
    }
  };

  const work = async (job: EngineJob<Job>, token?: string): Promise<void> => {
    const { data } = job;
    active += 1;
    try {
      const bytes = await trialsOf(data, job.stalledCounter);
      if (closing && bytes === null) {
        await job.moveToDelayed(Date.now(), token);
        throw new DelayedError();
      }
      if (bytes === null) return;
      const trials = data.counts.reduce((sum, one) => sum + one, 0);
      if (await board.putAnswer(data.draw, nameOf(data), bytes, { worker: id, trials })) meter.add(trials);
    } finally {
      active -= 1;
    }
  };

  const serve = (lane: string): void => {
    if (lanes.has(lane) || closing) return;
    const worker = new WorkerClass<Job>(lane, work, {
      connection: connectionOf(settings),
      prefix: PREFIX,
      // One more than there are threads: its trials lie ready when a thread is done.
      concurrency: count + 1,
      lockDuration: 1000 * lostAfter,
      stalledInterval: 500 * lostAfter,
      maxStalledCount: MOST_LOST,
      drainDelay: 1,
      // Without it a worker waits 15 s once its connection broke.
      runRetryDelay: 500,
      name,
    });
    worker.on("error", () => undefined);
    worker.on("failed", (job, error) => tell(`Job ${job?.id ?? ""} could not be answered: ${error.message}`));
    lanes.set(lane, worker);
  };

  const note = async (): Promise<void> => {
    for (const lane of await draws.look()) serve(lane);
    const { trials, rate } = meter.read();
    await board.note(id, { name, build, threads: count, lanes: [...lanes.keys()], active, trials, rate, since });
  };

  serve(plainLane);
  await note();
  let noting = false;
  const noteNow = (): void => {
    if (noting || closing) return;
    noting = true;
    // The queue may be away for a while; the job engine connects again by itself, and so does this.
    note()
      .catch(() => undefined)
      .finally(() => (noting = false));
  };
  const timer = setInterval(noteNow, BEAT_EVERY);
  const news = board.redis.duplicate();
  news.on("error", () => undefined);
  news.on("message", (_channel: string, text: string) => {
    const found = readNews(text);
    if (found !== null && "ended" in found) draws.end(found.ended);
    else noteNow();
  });
  await news.subscribe(NEWS);

  return {
    name,
    async close() {
      closing = true;
      clearInterval(timer);
      draws.endAll();
      const left = Promise.allSettled([...lanes.values()].map((worker) => worker.close()));
      await Promise.race([left, new Promise((resolve) => setTimeout(resolve, 4 * GRACE).unref())]);
      await Promise.race([board.forget(id), new Promise((resolve) => setTimeout(resolve, GRACE).unref())]).catch(
        () => undefined,
      );
      await threads.close();
      news.disconnect();
      board.redis.disconnect();
    },
  };
}
