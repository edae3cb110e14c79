import { join } from "node:path";
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { openPool } from "../../server/runs/pool/pool.ts";
import { Runs } from "../../server/runs/runs.ts";
import { loadStudyDocument } from "../../server/shelves/study.ts";
import { openStore } from "../../server/store/open-store.ts";
import { packageRoot } from "../../server/package-root.ts";
import { studyShelf } from "../../server/shelves/studies.ts";

/** Memory of the process once what nobody refers to was collected, in MB. */
export interface MemoryFigures {
  readonly cancelled: number;
  readonly heap: number;
  /** Arrays outside the heap, memory shared with the workers included. */
  readonly arrays: number;
  readonly resident: number;
}

setFlagsFromString("--expose-gc");
const collect = runInNewContext("gc") as () => void;

function figures(cancelled: number): MemoryFigures {
  collect();
  const { heapUsed, arrayBuffers, rss } = process.memoryUsage();
  const mega = (bytes: number): number => Math.round(bytes / 1e6);
  return { cancelled, heap: mega(heapUsed), arrays: mega(arrayBuffers), resident: mega(rss) };
}

/** Trials that a run has kept, 8 bytes each, before it is cancelled. */
const BEFORE = 500_000;

/**
 * Starts runs and cancels each once it has kept some megabytes.
 *
 * @returns the memory at ten moments of the campaign
 */
export async function cancelCampaign(
  cancels: number,
  tell: (figures: MemoryFigures) => void = () => undefined,
): Promise<readonly MemoryFigures[]> {
  const pool = await openPool(2);
  const store = openStore({ folder: null });
  const runs = new Runs(async () => pool, store);
  const study = await studyShelf(join(packageRoot(), "examples")).read("published/additive-normal");
  const loaded = await loadStudyDocument(study, null, { trials: 50_000_000 });
  const found: MemoryFigures[] = [];
  const every = Math.max(1, Math.floor(cancels / 10));
  try {
    for (let i = 1; i <= cancels; i++) {
      const id = await runs.start(loaded);
      await new Promise<void>((resolve) => {
        runs.follow(id, (event) => {
          if (event.type === "progress" && event.trials >= BEFORE) runs.cancel(id);
          if (event.type === "cancelled") resolve();
        });
      });
      if (i % every !== 0) continue;
      found.push(figures(i));
      tell(found.at(-1)!);
    }
  } finally {
    runs.stop();
    await pool.close();
    store.close();
  }
  return found;
}
