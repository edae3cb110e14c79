import { setEnvironmentData, Worker } from "node:worker_threads";
import { cancelled, Fault, faultFrom } from "../errors.ts";
import { builtFile } from "../package-root.ts";
import { MODULE_FOLDER, moduleFolder } from "../shelves/bundle.ts";
import { CANCEL, type FromThread, type ModelJob, type ModelProgress, type ModelResults } from "./messages.ts";

/** What a model of one's own may take. */
export interface ModelLimits {
  readonly seconds: number;
  /** Memory that the process may take beyond what it has when the thread starts. */
  readonly megabytes: number;
}

export const USUAL_MODEL_LIMITS: ModelLimits = { seconds: 3600, megabytes: 4096 };

export interface HostOptions {
  readonly signal: AbortSignal;
  readonly limits?: ModelLimits;
  readonly onProgress?: (progress: ModelProgress) => void;
  readonly onNotice?: ((words: string) => void) | undefined;
}

/** Milliseconds a thread has to come back after the request to stop; a model that loops never does. */
const GRACE = 500;
/** Milliseconds between two readings of the memory: typed arrays lie outside the heap that a thread's own limit is about. */
const LOOK_EVERY = 100;

/**
 * Does what needs a model of one's own in a thread of its own, so that a model that ends its process, takes all memory or
 * never returns ends its thread alone. It is no prison: a model is code, and reads and writes what its user may.
 *
 * @throws {Fault} what went wrong there; `cancelled`; `worker-lost` for a thread that ended or had to be ended
 */
export async function inModelThread<K extends ModelJob["kind"]>(
  job: Extract<ModelJob, { readonly kind: K }>,
  { signal, limits = USUAL_MODEL_LIMITS, onProgress, onNotice }: HostOptions,
): Promise<ModelResults[K]> {
  const filename = builtFile("own-model.js");
  setEnvironmentData(MODULE_FOLDER, moduleFolder());
  const worker = new Worker(filename, {
    workerData: job,
    resourceLimits: { maxOldGenerationSizeMb: limits.megabytes },
  });
  const before = process.memoryUsage.rss();
  const timers: NodeJS.Timeout[] = [];
  try {
    return await new Promise<ModelResults[K]>((resolve, reject) => {
      const end = (message: string): void => reject(new Fault("worker-lost", message));
      const cancel = (): void => {
        worker.postMessage(CANCEL, []);
        timers.push(setTimeout(() => reject(cancelled()), GRACE));
      };
      signal.addEventListener("abort", cancel, { once: true });
      if (signal.aborted) cancel();
      timers.push(
        setTimeout(
          () => end(`The model was ended: it had not finished after ${limits.seconds} s, the limit of --time-limit.`),
          1000 * limits.seconds,
        ),
        setInterval(() => {
          if (process.memoryUsage.rss() - before > limits.megabytes * 2 ** 20) end(tooMuch(limits));
        }, LOOK_EVERY),
      );
      worker.on("message", (message: FromThread) => {
        if ("progress" in message) onProgress?.(message.progress);
        else if ("notice" in message) onNotice?.(message.notice);
        else if ("report" in message) reject(faultFrom(message.report));
        else resolve(message.result as ModelResults[K]);
      });
      worker.on("error", (error: NodeJS.ErrnoException) =>
        end(
          error.code === "ERR_WORKER_OUT_OF_MEMORY" ? tooMuch(limits) : `The model's thread failed: ${error.message}`,
        ),
      );
      worker.on("exit", (code) =>
        end(
          `The model ended its thread with exit code ${code} before the result was there: does it call process.exit?`,
        ),
      );
    });
  } finally {
    for (const timer of timers) clearTimeout(timer);
    await worker.terminate();
  }
}

const tooMuch = ({ megabytes }: ModelLimits): string =>
  `The model was ended: it took more than ${megabytes} MB of memory, the limit of --memory-limit.`;
