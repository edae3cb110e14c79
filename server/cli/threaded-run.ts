import { bringsOwnModel, loadStudyFile, type LoadedStudy, type Overrides } from "../shelves/study.ts";
import { inModelThread, type HostOptions, type ModelLimits } from "../own-model/host.ts";
import { defaultWorkers, openPool, type Pool } from "../runs/pool/pool.ts";
import type { SealedRecord } from "../record/seal.ts";
import { runStudy } from "../runs/run-study.ts";
import type { QueueSettings } from "../queue/settings.ts";
import type { Fleet } from "../runs/far-drawing.ts";
import { printAside } from "./print.ts";
import { progressLine } from "./progress.ts";

/** Trials the calling thread draws before it starts others: about what it could draw while they start. */
const ALONE_FIRST = 2_000_000;

/**
 * Runs the study of a file; with a model of its own in a thread of its own.
 *
 * @param document a study with a model of its own that is not what stands in the file; paths in it lead from there
 * @throws {Fault}
 */
export async function runFile(
  path: string,
  overrides: Overrides,
  asked: number | undefined,
  limits: ModelLimits,
  document?: unknown,
  queue?: QueueSettings,
): Promise<SealedRecord> {
  if (document === undefined && !(await bringsOwnModel(path)))
    return threadedRun(await loadStudyFile(path, overrides), asked, queue);
  const aloneFirst = asked === undefined ? ALONE_FIRST : 0;
  const workers = asked ?? defaultWorkers();
  return withProgress(limits, (options) =>
    inModelThread(
      { kind: "run", path, document, overrides, workers, aloneFirst, ...(queue === undefined ? {} : { queue }) },
      options,
    ),
  );
}

/** Work in a thread of its own that shows how far it is and stops on an interrupt. */
export async function withProgress<T>(limits: ModelLimits, work: (options: HostOptions) => Promise<T>): Promise<T> {
  const progress = progressLine(process.stderr);
  const abort = new AbortController();
  const interrupt = (): void => abort.abort();
  process.once("SIGINT", interrupt);
  try {
    return await work({
      limits,
      signal: abort.signal,
      onProgress: ({ trials, limit, adaptive }) => progress.show(trials, limit, adaptive),
      onNotice: noticeBeside(progress),
    });
  } finally {
    progress.clear();
    process.off("SIGINT", interrupt);
  }
}

/**
 * Runs a study on several threads, shows how far it is, and stops on an interrupt.
 *
 * @param asked threads asked for; without it as many as the machine offers, and none if the run is short
 * @param queue where other machines take the trials, in place of threads
 * @param aloneFirst trials that the calling thread draws before it starts others
 * @throws {Fault}
 */
export async function threadedRun(
  loaded: LoadedStudy,
  asked?: number,
  queue?: QueueSettings,
  aloneFirst = asked === undefined ? ALONE_FIRST : 0,
): Promise<SealedRecord> {
  const workers = asked ?? defaultWorkers();
  const progress = progressLine(process.stderr);
  const abort = new AbortController();
  const interrupt = (): void => abort.abort();
  process.once("SIGINT", interrupt);
  // Asked for by the study and by each point of its sweep: one pool, or one fleet, serves them all.
  let pool: Promise<Pool> | undefined;
  let fleet: Promise<Fleet> | undefined;
  const far = async (to: QueueSettings): Promise<Fleet> =>
    (await import("../queue/fleet.ts")).openFleet(to, { notice: noticeBeside(progress) });
  try {
    const { record } = await runStudy(loaded, {
      pool: workers > 1 ? () => (pool ??= openPool(workers)) : undefined,
      ...(queue === undefined ? {} : { fleet: () => (fleet ??= far(queue)) }),
      aloneFirst,
      signal: abort.signal,
      onProgress: (gathered, prepared) =>
        progress.show(gathered.trials, prepared.limit, prepared.study.trials === "adaptive"),
      onPoint: (done, of) => progress.point(done, of),
    });
    return record;
  } finally {
    progress.clear();
    process.off("SIGINT", interrupt);
    for (const opened of [pool, fleet]) await (await opened?.catch(() => undefined))?.close();
  }
}

/** Prints what a person should know while a run goes on, on a line of its own. */
const noticeBeside =
  (progress: ReturnType<typeof progressLine>) =>
  (words: string): void => {
    progress.clear();
    printAside(`${words}\n`);
  };
