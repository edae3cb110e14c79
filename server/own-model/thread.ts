import { parentPort, workerData } from "node:worker_threads";
import { explore, prepare } from "../../engine/index.ts";
import { everyInput, requirePure, studiesOfSweep } from "../../engine/internal.ts";
import { reportOf } from "../errors.ts";
import { writeTrials } from "../export/trials/write-trials.ts";
import { verifyRecord } from "../verify/verify.ts";
import { inSourceTerms } from "../shelves/source-places.ts";
import { newStudy } from "../shelves/new-study.ts";
import { loadStudyDocument, loadStudyFile, loadStudyOrModel } from "../shelves/study.ts";
import type { QueueSettings } from "../queue/settings.ts";
import type { Fleet } from "../runs/far-drawing.ts";
import { openPool, type Pool } from "../runs/pool/pool.ts";
import { runStudy } from "../runs/run-study.ts";
import {
  CANCEL,
  type CheckedModel,
  type FromThread,
  type ModelJob,
  type ModelProgress,
  type ModelResults,
} from "./messages.ts";

/** Milliseconds between two messages on how far a run is. */
const REPORT_EVERY = 80;

const send = (message: FromThread): void => parentPort!.postMessage(message, []);
const abort = new AbortController();
parentPort!.on("message", (message) => {
  if (message === CANCEL) abort.abort();
});

let pool: Promise<Pool> | undefined;
const poolOf = (workers: number): (() => Promise<Pool>) | undefined =>
  workers > 1 ? () => (pool ??= openPool(workers)) : undefined;

let fleet: Promise<Fleet> | undefined;
const fleetOn = async (queue: QueueSettings): Promise<Fleet> =>
  (await import("../queue/fleet.ts")).openFleet(queue, { notice: (notice) => send({ notice }) });

let reported = 0;
function tell(progress: ModelProgress): void {
  const now = performance.now();
  if (now - reported < REPORT_EVERY) return;
  reported = now;
  send({ progress });
}

async function carryOut(job: ModelJob): Promise<ModelResults[ModelJob["kind"]]> {
  switch (job.kind) {
    case "run": {
      const { path, document, overrides, queue } = job;
      const loaded = await (document === undefined
        ? loadStudyFile(path, overrides)
        : loadStudyDocument(document, path, overrides));
      const { record } = await runStudy(loaded, {
        pool: poolOf(job.workers),
        ...(queue === undefined ? {} : { fleet: () => (fleet ??= fleetOn(queue)) }),
        aloneFirst: job.aloneFirst,
        signal: abort.signal,
        onProgress: ({ trials }, { limit, study }) => tell({ trials, limit, adaptive: study.trials === "adaptive" }),
      });
      return record;
    }
    case "newStudy": {
      const { document, dropped } = await newStudy(job.base, job.replacement, job.to);
      return { document, dropped };
    }
    case "explore": {
      const { study, model } = await loadStudyFile(job.path, job.overrides);
      requirePure(model, prepare(model, study).source);
      return explore(model, study, job.settings, (trials, limit) => tell({ trials, limit, adaptive: false }));
    }
    case "trials":
      return writeTrials(job, {
        signal: abort.signal,
        onProgress: (trials, limit) => tell({ trials, limit, adaptive: false }),
      });
    case "check":
      return checkFile(job.path);
    case "verify": {
      const { content, name, signature, publicKey, workers } = job;
      return verifyRecord(content, name, {
        ...(signature === undefined ? {} : { signature }),
        ...(publicKey === undefined ? {} : { publicKey }),
        trustModel: true,
        pool: poolOf(workers),
        signal: abort.signal,
      });
    }
  }
}

/** What a run checks before its trials, or what a model's file declares. */
async function checkFile(path: string): Promise<CheckedModel> {
  const { model, study } = await loadStudyOrModel(path);
  if (study !== null) {
    for (const one of [study, ...studiesOfSweep(study)]) prepare(model, one);
    requirePure(model, prepare(model, study).source);
  }
  const { id, title, measurands } = model;
  return { id, title, study: study?.title ?? null, inputs: everyInput(model), measurands };
}

try {
  send({ result: await carryOut(workerData as ModelJob) });
} catch (error) {
  const report = reportOf(error);
  send({ report: { ...report, message: inSourceTerms(report.message) } });
} finally {
  await (await pool)?.close();
  await (await fleet?.catch(() => undefined))?.close();
  parentPort!.close();
}
