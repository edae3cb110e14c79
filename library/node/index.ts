// The package's door `trialband/node`: all cores of a machine that runs Node.js.
export { propagateOnThreads } from "./propagate-on-threads.ts";

export type { DefinedFor, RecordFor, StudyFor, ThreadOptions } from "./propagate-on-threads.ts";
