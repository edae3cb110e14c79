import type { LoadedStudy } from "../shelves/study.ts";
import { defaultWorkers, openPool, type Pool } from "../runs/pool/pool.ts";
import type { SealedRecord } from "../record/seal.ts";
import { runStudy } from "../runs/run-study.ts";
import { progressLine } from "./progress.ts";

/** Trials the calling thread draws before it starts others: about what it could draw while they start. */
const ALONE_FIRST = 2_000_000;

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
  let pool: Pool | undefined;
  try {
    const { record } = await runStudy(loaded, {
      pool: workers > 1 ? async () => (pool = await openPool(workers)) : undefined,
      aloneFirst: asked === undefined ? ALONE_FIRST : 0,
      signal: abort.signal,
      onProgress: (gathered, prepared) =>
        progress.show(gathered.trials, prepared.limit, prepared.study.trials === "adaptive"),
    });
    return record;
  } finally {
    progress.clear();
    process.off("SIGINT", interrupt);
    await pool?.close();
  }
}
