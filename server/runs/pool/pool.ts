import { availableParallelism } from "node:os";
import type { DrawAnswer, DrawTask } from "./messages.ts";
import { openThreads } from "./threads.ts";

/** Workers to use by default: one a core, within limits. */
export const defaultWorkers = (): number => Math.min(availableParallelism(), 16);

/** Draws batches on worker threads. */
export interface Pool {
  readonly workers: number;
  /** @throws {Fault} what went wrong on the worker, or `cancelled` */
  draw(task: DrawTask, signal: AbortSignal): Promise<Extract<DrawAnswer, { ok: true }>["batches"]>;
  close(): Promise<void>;
}

/** Starts a pool; its threads stay warm until it is closed. */
export async function openPool(workers: number): Promise<Pool> {
  const threads = await openThreads<DrawTask, DrawAnswer>("worker.cjs", workers);
  return {
    workers,
    draw: async (task, signal) => (await threads.run(task, signal)).batches,
    close: () => threads.close(),
  };
}
