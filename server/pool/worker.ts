import { openTrials, prepare, type Batch, type Room } from "../../engine/index.ts";
import { reportOf } from "../errors.ts";
import { loadModel } from "../loading/model.ts";
import type { DrawAnswer, DrawTask, Recipe } from "./messages.ts";

type Draw = ReturnType<typeof openTrials>;

/** The runs this thread has prepared lately; a server shares its workers among few runs at a time. */
const opened = new Map<string, Promise<Draw>>();
const KEPT = 4;

async function open({ recipe }: DrawTask): Promise<Draw> {
  const { model, study } = JSON.parse(recipe) as Recipe;
  return openTrials(prepare(await loadModel(model), study).source, sharedRoom);
}

/** Draws batches. Their arrays lie in memory that both threads share: nothing is copied, moved or collected. */
export default function draw(task: DrawTask): Promise<DrawAnswer> {
  return answerTo(task);
}

/** Bytes of shared memory taken at a time: some ten batches. */
const CHUNK = 2 ** 20;
let chunk = new SharedArrayBuffer(0);
let used = 0;

/** Room in shared memory. Buffers that are moved count as the receiver's garbage: measured, a full collection a run. */
const sharedRoom: Room = (bytes) => {
  const size = 8 * Math.ceil(bytes / 8);
  if (used + size > chunk.byteLength) {
    chunk = new SharedArrayBuffer(Math.max(CHUNK, size));
    used = 0;
  }
  const offset = used;
  used += size;
  return { buffer: chunk, offset };
};

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
