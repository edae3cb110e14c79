import { move, transferableSymbol, valueSymbol } from "piscina";
import { openTrials, prepare, type Batch } from "../../engine/index.ts";
import { reportOf } from "../errors.ts";
import { loadModel } from "../loading/model.ts";
import type { DrawAnswer, DrawTask } from "./messages.ts";

type Draw = ReturnType<typeof openTrials>;

/** The runs this thread has prepared lately; a server shares its workers among few runs at a time. */
const opened = new Map<string, Promise<Draw>>();
const KEPT = 4;

async function open({ reference, study }: DrawTask): Promise<Draw> {
  return openTrials(prepare(await loadModel(reference), study).source);
}

/** Draws batches. The arrays move to the main thread, they are not copied. */
export default async function draw(task: DrawTask): Promise<unknown> {
  const answer = await answerTo(task);
  const buffers = answer.ok
    ? answer.batches.flatMap(({ measurands, joint }) => [...measurands.flatMap(({ values, starts }) => [values.buffer, starts.buffer]), ...(joint?.columns ?? []).map(({ buffer }) => buffer)])
    : [];
  return move({ [transferableSymbol]: buffers, [valueSymbol]: answer } as never);
}

async function answerTo(task: DrawTask): Promise<DrawAnswer> {
  try {
    let found = opened.get(task.job);
    if (found === undefined) {
      found = open(task);
      opened.set(task.job, found);
      if (opened.size > KEPT) opened.delete(opened.keys().next().value!);
    }
    const drawBatch = await found;
    const batches: Batch[] = [];
    let first = task.first;
    for (const count of task.counts) {
      if (Atomics.load(task.stop, 0) === 1) break;
      batches.push(drawBatch(first, count));
      first += count;
    }
    return { ok: true, batches };
  } catch (error) {
    return { ok: false, report: reportOf(error) };
  }
}
