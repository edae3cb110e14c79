import { join } from "node:path";
import { histogramOf, MAXIMUM_TRIALS, readStudy } from "../../../engine/index.ts";
import { loadStudyFile, type LoadedStudy } from "../../../server/loading/study.ts";
import { openPool } from "../../../server/pool/pool.ts";
import { runStudy } from "../../../server/run-study.ts";
import { checksumOf, type Answer, type OutputFigures } from "./answer.ts";
import { OTHERS, TRIALS_OF_OTHERS } from "../workloads/others.ts";

export const BINS = 200;

export interface Ours {
  run(workload: string, trials: number, seed: number): Promise<Answer>;
  /** Runs the 20 other models in this process. */
  runOthers(): Promise<number>;
  close(): Promise<void>;
}

/**
 * Ours as a contestant: with one worker this thread draws, with more a pool does that is warm.
 *
 * @param root folder of the checkout
 */
export async function openOurs(root: string, workers: number): Promise<Ours> {
  const pool = workers > 1 ? await openPool(workers) : undefined;
  const loaded = new Map<string, LoadedStudy>();
  const load = async (workload: string): Promise<LoadedStudy> => {
    const found = loaded.get(workload) ?? (await loadStudyFile(join(root, `tests/bench/workloads/${workload.toLowerCase()}.ts`)));
    loaded.set(workload, found);
    return found;
  };

  return {
    async run(workload, asked, seed) {
      const { study: written, reference } = await load(workload);
      const trials = Math.min(asked, MAXIMUM_TRIALS);
      const study = readStudy({ ...written, trials, seed: String(seed) });
      let outputs: readonly OutputFigures[] = [];
      let ellipsoid: number | null = null;
      let milliseconds = Number.NaN;
      const clock = performance.now();
      await runStudy({ study, reference }, {
        pool: pool === undefined ? undefined : () => Promise.resolve(pool),
        onProgress(gathered, { model }) {
          if (gathered.next > 0) return;
          // The last batch is in: the figures that the others give as well, and the clock, before the record is assembled.
          outputs = Object.keys(model.measurands).map((name) => {
            const { estimate, standardUncertainty, intervals } = gathered.result(name);
            return { estimate: estimate!, standardUncertainty: standardUncertainty!, ...intervals, histogram: histogramOf(gathered.sample(name), BINS) };
          });
          ellipsoid = gathered.joint()?.ellipsoid?.factor ?? null;
          milliseconds = performance.now() - clock;
        },
      });
      const recordMilliseconds = performance.now() - clock;
      return {
        workload, trials, seed, milliseconds, outputs, ellipsoid, recordMilliseconds,
        checksum: checksumOf(outputs, ellipsoid),
        residentKb: process.resourceUsage().maxRSS,
      };
    },
    async runOthers() {
      for (const path of OTHERS) {
        const { study, reference } = await loadStudyFile(join(root, path));
        // A sweep or an analysis of sensitivity would run the same model again.
        const plain = { ...study, trials: TRIALS_OF_OTHERS, sweep: null, sensitivity: null };
        await runStudy({ study: plain, reference }, { pool: pool === undefined ? undefined : () => Promise.resolve(pool) });
      }
      return OTHERS.length;
    },
    async close() {
      await pool?.close();
    },
  };
}
