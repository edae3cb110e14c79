import { parentPort, workerData } from "node:worker_threads";
import { serveTrials } from "../workers/serve-trials.ts";
import { modelAt, type ModuleAddress } from "./model-at.ts";

// A thread that draws trials of the model at the address it was started with.
const port = parentPort!;
serveTrials(modelAt(workerData as ModuleAddress), {
  addEventListener: (_type, listener) => void port.on("message", (data: unknown) => listener({ data })),
  postMessage: (message, { transfer }) => port.postMessage(message, transfer),
});
