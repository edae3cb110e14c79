import { Fault } from "../errors.ts";
import type { Threads } from "../runs/pool/threads.ts";
import type { ThreadResult, ThreadTask } from "./thread.ts";
import { newTrace, readTrace } from "./trace.ts";

/**
 * Draws the trials of a job that ended its threads once more, one by one, and names the one that ends them.
 *
 * @param cause why the threads ended
 * @returns the fault that ends the run; `cause` if no trial ends a thread by itself
 */
export async function suspectOf(
  task: ThreadTask,
  threads: Threads<ThreadTask, ThreadResult>,
  signal: AbortSignal,
  cause: Fault,
): Promise<Fault> {
  const trace = newTrace();
  try {
    await threads.run({ ...task, trace }, signal);
    return cause;
  } catch {
    const found = readTrace(Buffer.from(trace));
    return found === null
      ? cause
      : new Fault("worker-lost", `The model ends its thread, or never returns, at ${found.words}: ${cause.message}`);
  }
}
