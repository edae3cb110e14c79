// A process of its own for what may end a process: a model of one's own that is drawn, or looked for the trial that does it.
import { openSync, writeSync } from "node:fs";
import { setEnvironmentData } from "node:worker_threads";
import { evaluateOneByOne, prepare, readStudy } from "../../engine/internal.ts";
import { reportOf } from "../errors.ts";
import { MODULE_FOLDER } from "../shelves/bundle.ts";
import { loadModel } from "../shelves/model.ts";
import type { FromProcess, ProcessProbe, ProcessWork, ToProcess } from "./process-messages.ts";
import { newTrace, writeTrace } from "./trace.ts";
import { trustIn } from "./trust.ts";
import { startWorker } from "./worker.ts";

const say = (message: FromProcess): void => void process.send?.(message);

/** Says it, and ends once it is said. */
const endWith = (message: FromProcess): void =>
  void process.send?.(message, undefined, undefined, () => process.exit(0));

async function work(task: ProcessWork): Promise<void> {
  const { settings, name, folder, threads, models, all, seconds, lostAfter } = task;
  setEnvironmentData(MODULE_FOLDER, folder);
  const trust = await trustIn(models, all);
  const worker = await startWorker(settings, {
    name,
    threads,
    trust,
    seconds,
    ...(lostAfter === undefined ? {} : { lostAfter }),
    tell: (words) => say({ tell: words }),
  });
  process.on("message", ({ kind }: ToProcess) => {
    if (kind === "close") void worker.close().finally(() => process.exit(0));
  });
  say({ ready: true });
}

async function probe({ model, study, first, counts, file, only }: ProcessProbe): Promise<void> {
  const { source, model: prepared } = prepare(await loadModel(model), readStudy(JSON.parse(study)));
  const names = Object.keys(prepared.inputs);
  const trace = openSync(file, "r+");
  const room = Buffer.alloc(newTrace().byteLength);
  const count = counts.reduce((sum, one) => sum + one, 0);
  evaluateOneByOne(source, first, count, (trial, inputs) => {
    if (only !== null && trial !== only) return false;
    // What is written is the system's from then on: it is there when this process is not.
    writeSync(trace, room, 0, writeTrace(room, trial, names, inputs), 0);
    return true;
  });
}

// A terminal's Ctrl+C reaches this process too; it ends when the one that started it says so, or is gone.
for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"] as const) process.on(signal, () => undefined);
process.once("disconnect", () => process.exit(1));
process.once("message", (task: ToProcess) => {
  if (task.kind === "work") work(task).catch((error: unknown) => endWith({ failed: reportOf(error) }));
  if (task.kind === "probe")
    probe(task).then(
      () => endWith({ done: true }),
      (error: unknown) => endWith({ failed: reportOf(error) }),
    );
});
