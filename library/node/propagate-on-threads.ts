import { availableParallelism } from "node:os";
import { Worker } from "node:worker_threads";
import {
  readStudy,
  type DefinedStudy,
  type Model,
  type Progress,
  type RecordOf,
  type RunRecord,
  type Study,
  type StudyOf,
} from "../../engine/internal.ts";
import { drawOnWorkers } from "../workers/draw-on-workers.ts";
import { workersFrom, type AbortableSignal, type DrawingWorker } from "../workers/worker.ts";
import { modelAt, type ModuleAddress } from "./model-at.ts";

/** How a run is shared among threads of Node.js, followed and stopped. */
export interface ThreadOptions {
  /** Threads to start, from 1 to 256; one a core, 16 at most, if it is left out. */
  readonly threads?: number;
  /** The name under which the module exports the model; `default` if it is left out. */
  readonly exportName?: string;
  /** Called after every batch of trials. */
  readonly onProgress?: (progress: Progress) => void;
  /** An `AbortSignal`: once it is aborted the threads are ended at once. */
  readonly signal?: AbortableSignal;
}

/** The study of a model of type `M`. */
export type StudyFor<M> = M extends Model<infer I, infer _O, infer P> ? StudyOf<I, P> : never;
/** What `defineStudy` returns for a model of type `M`. */
export type DefinedFor<M> = M extends Model<infer I, infer O, infer P> ? DefinedStudy<I, O, P> : never;
/** The record of a model of type `M`. */
export type RecordFor<M> = M extends Model<infer I, infer O, infer P> ? RecordOf<I, O, P> : never;

/**
 * Propagates a study on several threads of Node.js. The record is that of `propagate`, bit for bit, for any number of
 * threads.
 *
 * The model is given by the address of the module that exports it, since functions do not travel between threads: a URL,
 * `new URL("./density.js", import.meta.url)`, or what `import.meta.resolve` returns. Its type, `typeof density`, makes the
 * names known to the compiler; `import type` is enough for that. The module is loaded on each thread, and should do nothing
 * but declare. A `.ts` module needs a Node.js that strips types (22.18, 23.6 and later).
 *
 * @throws {InputError} a study that cannot be used
 * @throws {ModelError} a model that throws, whose value is not a finite number or depends on more than its inputs
 * @throws {Error} a module that cannot be loaded or exports no model; a thread that ended
 * @throws the signal's reason, if it was aborted
 *
 * @example
 * import type density from "./density.js";
 *
 * const record = await propagateOnThreads<typeof density>(new URL("./density.js", import.meta.url), {
 *   title: "Density of the check weight",
 *   inputs: {
 *     mass: { distribution: "normal", estimate: 1.0002, standardUncertainty: 0.0001 },
 *     volume: { distribution: "rectangular", estimate: 1.25e-4, halfWidth: 2e-7 },
 *   },
 * });
 * record.measurands.density.validation.sentence;
 */
export async function propagateOnThreads<M extends Model = Model>(
  module: { readonly href: string } | string,
  study: StudyFor<M> | DefinedFor<M> | Study,
  options?: ThreadOptions,
): Promise<RecordFor<M>>;
export async function propagateOnThreads(
  module: { readonly href: string } | string,
  given: StudyOf<string, string> | DefinedStudy | Study,
  { threads, exportName = "default", onProgress, signal }: ThreadOptions = {},
): Promise<RunRecord> {
  const address: ModuleAddress = { url: typeof module === "string" ? module : module.href, exportName };
  const model = await modelAt(address);
  const stated = typeof given === "object" && given !== null && "study" in given ? given.study : given;
  const study = readStudy({ model: model.id, ...stated });
  const count = workersFrom(threads, availableParallelism(), "options.threads");
  return drawOnWorkers(model, study, {
    workers: Array.from({ length: count }, () => drawingThread(address)),
    signal,
    onProgress,
  });
}

/** The thread's file: built beside this one, or, where this one is a source, in what was built of it. */
const threadFile = (): URL =>
  import.meta.url.endsWith(".ts")
    ? new URL("../../dist/node-thread.js", import.meta.url)
    : new URL("./node-thread.js", import.meta.url);

function drawingThread(address: ModuleAddress): DrawingWorker {
  const thread = new Worker(threadFile(), { workerData: address });
  return {
    ask: (message) => thread.postMessage(message, []),
    onAnswer: (listener) => void thread.on("message", listener),
    onEnd(listener) {
      thread.on("error", (error: unknown) => listener(error instanceof Error ? error.message : String(error)));
      thread.on("exit", (code) => listener(`exit code ${code}`));
    },
    terminate: () => void thread.terminate(),
  };
}
