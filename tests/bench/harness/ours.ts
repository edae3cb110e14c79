import { existsSync } from "node:fs";
import { join } from "node:path";
import { readStudy } from "../../../engine/index.ts";
import { histogramOf, MAXIMUM_TRIALS } from "../../../engine/internal.ts";
import { loadModel } from "../../../server/shelves/model.ts";
import { loadStudyFile, type LoadedStudy } from "../../../server/shelves/study.ts";
import { openFleet } from "../../../server/queue/fleet.ts";
import { queueFrom } from "../../../server/queue/settings.ts";
import { openPool } from "../../../server/runs/pool/pool.ts";
import { drawStudy } from "../../../server/runs/draw-study.ts";
import { runStudy } from "../../../server/runs/run-study.ts";
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
 * @param queue address of a queue whose workers draw, in place of the pool
 */
export async function openOurs(root: string, workers: number, queue?: string): Promise<Ours> {
  const pool = workers > 1 ? await openPool(workers) : undefined;
  const fleet =
    queue === undefined
      ? undefined
      : await openFleet(queueFrom(queue, "the bench"), {
          notice: (words) => void process.stderr.write(`${words}\n`),
        });
  const loaded = new Map<string, LoadedStudy>();
  const load = async (workload: string): Promise<LoadedStudy> => {
    const path = join(root, "tests/bench/workloads", workload.toLowerCase());
    const file = existsSync(`${path}.json`) ? `${path}.json` : `${path}.ts`;
    const found = loaded.get(workload) ?? (await loadStudyFile(file));
    loaded.set(workload, found);
    return found;
  };

  return {
    async run(workload, asked, seed) {
      const { study: written, reference } = await load(workload);
      const trials = Math.min(asked, MAXIMUM_TRIALS);
      const study = readStudy({ ...written, trials, seed: String(seed) });
      const options = {
        pool: pool === undefined ? undefined : () => Promise.resolve(pool),
        fleet: fleet === undefined ? undefined : () => Promise.resolve(fleet),
      };
      // What the others do as well: the trials, and the figures from them. The record is timed beside it.
      const clock = performance.now();
      const { prepared, gathered, release } = await drawStudy(
        await loadModel(reference),
        { study, reference },
        options,
        false,
      );
      const outputs = Object.keys(prepared.model.measurands).map((name): OutputFigures => {
        const { estimate, standardUncertainty, intervals } = gathered.result(name);
        return {
          estimate: estimate!,
          standardUncertainty: standardUncertainty!,
          ...intervals,
          histogram: histogramOf(gathered.sample(name), BINS),
        };
      });
      const ellipsoid = gathered.ellipsoidFactor();
      const milliseconds = performance.now() - clock;
      release();
      let recordMilliseconds = Number.NaN;
      // The record of a slow model evaluates it for its explanation as often as the run does: minutes that no row shows.
      if (trials <= 1_000_000 && workload !== "slow") {
        const again = performance.now();
        const whole = await runStudy({ study, reference }, options);
        recordMilliseconds = performance.now() - again;
        whole.release();
      }
      return {
        workload,
        trials,
        seed,
        milliseconds,
        outputs,
        ellipsoid,
        recordMilliseconds,
        checksum: checksumOf(outputs, ellipsoid),
        residentKb: process.resourceUsage().maxRSS,
      };
    },
    async runOthers() {
      for (const path of OTHERS) {
        const { study, reference } = await loadStudyFile(join(root, path));
        // A sweep or an analysis of sensitivity would run the same model again.
        const plain = { ...study, trials: TRIALS_OF_OTHERS, sweep: null, sensitivity: null };
        const { release } = await runStudy(
          { study: plain, reference },
          { pool: pool === undefined ? undefined : () => Promise.resolve(pool) },
        );
        release();
      }
      return OTHERS.length;
    },
    async close() {
      await Promise.all([pool?.close(), fleet?.close()]);
    },
  };
}
