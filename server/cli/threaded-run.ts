import { bringsOwnModel, loadStudyFile, type LoadedStudy, type Overrides } from "../shelves/study.ts";
import { inModelThread, type HostOptions, type ModelLimits } from "../own-model/host.ts";
import { defaultWorkers, openPool, type Pool } from "../runs/pool/pool.ts";
import type { SealedRecord } from "../record/seal.ts";
import { runStudy } from "../runs/run-study.ts";
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
): Promise<SealedRecord> {
  if (document === undefined && !(await bringsOwnModel(path)))
    return threadedRun(await loadStudyFile(path, overrides), asked);
  const aloneFirst = asked === undefined ? ALONE_FIRST : 0;
  return withProgress(limits, (options) =>
    inModelThread({ kind: "run", path, document, overrides, workers: asked ?? defaultWorkers(), aloneFirst }, options),
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
 * @throws {Fault}
 */
export async function threadedRun(loaded: LoadedStudy, asked?: number): Promise<SealedRecord> {
  const workers = asked ?? defaultWorkers();
  const progress = progressLine(process.stderr);
  const abort = new AbortController();
  const interrupt = (): void => abort.abort();
  process.once("SIGINT", interrupt);
  // Asked for by the study and by each point of its sweep: one pool serves them all.
  let pool: Promise<Pool> | undefined;
  try {
    const { record } = await runStudy(loaded, {
      pool: workers > 1 ? () => (pool ??= openPool(workers)) : undefined,
      aloneFirst: asked === undefined ? ALONE_FIRST : 0,
      signal: abort.signal,
      onProgress: (gathered, prepared) =>
        progress.show(gathered.trials, prepared.limit, prepared.study.trials === "adaptive"),
      onPoint: (done, of) => progress.point(done, of),
    });
    return record;
  } finally {
    progress.clear();
    process.off("SIGINT", interrupt);
    await (await pool?.catch(() => undefined))?.close();
  }
}
