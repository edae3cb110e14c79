// The package's door `trialband/workers`: all cores in a page.
export { propagateOnWorkers } from "./propagate-on-workers.ts";
export { serveTrials } from "./serve-trials.ts";

export type { PageWorker, PageWorkerEvent, WorkerOptions } from "./propagate-on-workers.ts";
export type { WorkerScope } from "./serve-trials.ts";
export type { AbortableSignal } from "./worker.ts";
