import { LRUCache } from "lru-cache";
import { move, transferableSymbol, valueSymbol } from "piscina";
import { evaluateOneByOne, openCondensed, prepare, readStudy, type Prepared } from "../../engine/internal.ts";
import { reportOf, type FaultReport } from "../errors.ts";
import { loadModel, type ModelPlace } from "../shelves/model.ts";
import { encode } from "./codec.ts";
import type { Answer } from "./messages.ts";
import { writeTrace } from "./trace.ts";

/** A task for a thread of a worker: a job, and where the model lies on this machine. */
export interface ThreadTask {
  readonly draw: string;
  readonly model: ModelPlace;
  /** The study as JSON. */
  readonly study: string;
  readonly first: number;
  readonly counts: readonly number[];
  /** One shared integer: once it is 1 no further batch is begun. */
  readonly stop: Int32Array;
  /** If it is there, trials are evaluated one by one, and each stands here before it is. Nothing is answered then. */
  readonly trace: SharedArrayBuffer | null;
}

export type ThreadResult =
  | { readonly ok: true; /** An `Answer`; empty if it was stopped or traced. */ readonly bytes: Uint8Array }
  | { readonly ok: false; readonly report: FaultReport };

interface Opened {
  readonly prepared: Prepared;
  readonly draw: ReturnType<typeof openCondensed>;
}

/** The draws this thread has prepared lately. */
const opened = new LRUCache<string, Promise<Opened>>({ max: 4 });

async function open({ model, study }: ThreadTask): Promise<Opened> {
  // What comes through a queue is checked as what comes in a file is.
  const prepared = prepare(await loadModel(model), readStudy(JSON.parse(study)));
  return { prepared, draw: openCondensed(prepared.source) };
}

/** Draws the batches of a job. */
export default async function drawJob(task: ThreadTask): Promise<ThreadResult> {
  try {
    let found = opened.get(task.draw);
    if (found === undefined) {
      found = open(task);
      opened.set(task.draw, found);
    }
    const { prepared, draw } = await found;
    const { first, counts, stop, trace } = task;
    requireJob(task, prepared);
    const stopped = (): boolean => Atomics.load(stop, 0) === 1;
    if (trace !== null) {
      const count = counts.reduce((sum, one) => sum + one, 0);
      const names = Object.keys(prepared.model.inputs);
      const note = Buffer.from(trace);
      evaluateOneByOne(prepared.source, first, count, (trial, inputs) => writeTrace(note, trial, names, inputs) > 0);
      return { ok: true, bytes: new Uint8Array(0) };
    }
    const began = performance.now();
    const drawn = draw(first, counts, stopped);
    if (drawn === null) return { ok: true, bytes: new Uint8Array(0) };
    return answerOf({ ok: true, ...drawn, seconds: (performance.now() - began) / 1000 });
  } catch (error) {
    return { ok: false, report: reportOf(error) };
  }
}

/** What comes through a queue may be anybody's. @throws {RangeError} a job that no coordinator gives */
function requireJob({ first, counts }: ThreadTask, { batch, limit }: Prepared): void {
  let at = first;
  const fits = counts.length > 0 && first >= 0 && first % batch === 0;
  for (const [i, count] of counts.entries()) {
    at += count;
    if (!(count > 0 && (count === batch || (i === counts.length - 1 && count < batch)))) at = Number.NaN;
  }
  if (!fits || !(at <= limit))
    throw new RangeError(`a job from trial ${first} on in ${counts.length} batches that are none of this run`);
}

function answerOf(answer: Answer): ThreadResult {
  const bytes = encode(answer);
  const result: ThreadResult = { ok: true, bytes };
  // A short answer lies in memory that it shares with others.
  if (bytes.byteLength !== bytes.buffer.byteLength) return result;
  // Passed on in place of a copy of it: megabytes, many times a second.
  return move({
    get [transferableSymbol]() {
      return [bytes.buffer];
    },
    get [valueSymbol]() {
      return result;
    },
  } as unknown as ArrayBuffer) as unknown as ThreadResult;
}
