import { readRun } from "../api.ts";
import type { Run } from "../../api/runs.ts";

/** Milliseconds between two looks at a run that goes on. */
const EVERY = 400;

/**
 * Waits until a run has ended.
 *
 * @param onProgress is given the share of its trials that are drawn
 * @returns the run as it ended: finished, failed or cancelled
 * @throws {RequestError} the server does not answer
 */
export async function endOf(id: string, onProgress: (share: number) => void): Promise<Run> {
  for (;;) {
    const run = await readRun(id);
    if (run.state !== "waiting" && run.state !== "running") return run;
    onProgress(run.limit === 0 ? 0 : run.trials / run.limit);
    await new Promise((resolve) => setTimeout(resolve, EVERY));
  }
}
