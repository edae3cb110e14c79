import {
  readGiven,
  type DefinedStudy,
  type Given,
  type Model,
  type Progress,
  type RecordOf,
  type RunRecord,
  type Study,
  type StudyOf,
} from "../../engine/internal.ts";
import { drawOnWorkers } from "./draw-on-workers.ts";
import { workersFrom, type AbortableSignal, type DrawingWorker } from "./worker.ts";

/** What is used of a page's `Worker`. */
export interface PageWorker {
  postMessage(message: unknown, options: { transfer: ArrayBuffer[] }): void;
  addEventListener(type: "message" | "messageerror" | "error", listener: (event: PageWorkerEvent) => void): void;
  terminate(): void;
}

/** What is read of an event that a page's `Worker` sends: a message has `data`, an error has `message`. */
export interface PageWorkerEvent {
  /** The worker's message. */
  readonly data?: unknown;
  /** What an error says. */
  readonly message?: string;
}

/** How a run is shared among the workers of a page, followed and stopped. */
export interface WorkerOptions {
  /**
   * Starts a worker whose file calls `serveTrials` with the same model. A function does not travel to a worker, so that
   * its file has to import the model too; bundlers see the address in `new Worker(new URL(…, import.meta.url))`.
   */
  readonly start: () => PageWorker;
  /** Workers to start, from 1 to 256; the cores that the browser states, 16 at most, if it is left out. */
  readonly workers?: number;
  /** Called after every batch of trials. */
  readonly onProgress?: (progress: Progress) => void;
  /** An `AbortSignal`: once it is aborted the workers are ended at once. */
  readonly signal?: AbortableSignal;
}

/**
 * Propagates a study on several workers of a page. The record is that of `propagate`, bit for bit, for any number of
 * workers, and the page stays alive meanwhile.
 *
 * @throws {InputError} a study that cannot be used
 * @throws {ModelError} a model that throws, whose value is not a finite number or depends on more than its inputs
 * @throws {Error} a worker that ended, or whose file has another model
 * @throws the signal's reason, if it was aborted
 *
 * @example
 * const record = await propagateOnWorkers(density, study, {
 *   start: () => new Worker(new URL("./density-worker.ts", import.meta.url), { type: "module" }),
 * });
 */
export function propagateOnWorkers<I extends string, O extends string, P extends string = never>(
  study: DefinedStudy<I, O, P>,
  options: WorkerOptions,
): Promise<RecordOf<I, O, P>>;
export function propagateOnWorkers<I extends string, O extends string, P extends string = never>(
  model: Model<I, O, P>,
  study: Study,
  options: WorkerOptions,
): Promise<RecordOf<I, O, P>>;
export function propagateOnWorkers<I extends string, O extends string, P extends string = never>(
  model: Model<I, O, P>,
  study: StudyOf<I, P>,
  options: WorkerOptions,
): Promise<RecordOf<I, O, P>>;
export async function propagateOnWorkers(...given: Given<WorkerOptions>): Promise<RunRecord> {
  const { model, study, options } = readGiven(given);
  if (typeof options?.start !== "function")
    throw new TypeError("options.start: expected a function that starts a worker whose file calls serveTrials");
  const { start, signal, onProgress } = options;
  const count = workersFrom(options.workers, coresOfPage(), "options.workers");
  return drawOnWorkers(model, study, {
    workers: Array.from({ length: count }, () => drawingWorker(start())),
    signal,
    onProgress,
  });
}

const coresOfPage = (): number =>
  (globalThis as { readonly navigator?: { readonly hardwareConcurrency?: number } }).navigator?.hardwareConcurrency ??
  4;

const drawingWorker = (worker: PageWorker): DrawingWorker => ({
  ask: (message) => worker.postMessage(message, { transfer: [] }),
  onAnswer: (listener) => worker.addEventListener("message", ({ data }) => listener(data)),
  onEnd(listener) {
    worker.addEventListener("error", ({ message }) => listener(message ?? "its file could not be loaded or run"));
    worker.addEventListener("messageerror", () => listener("a message could not be read"));
  },
  terminate: () => worker.terminate(),
});
