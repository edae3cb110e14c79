import { LRUCache } from "lru-cache";
import { prepare } from "../../../engine/index.ts";
import { openTrials, ownRoom, type Batch, type Room } from "../../../engine/internal.ts";
import { reportOf } from "../../errors.ts";
import { loadModel } from "../../shelves/model.ts";
import type { DrawAnswer, DrawTask, Recipe } from "./messages.ts";
import { roomIn } from "./rooms.ts";

type Draw = ReturnType<typeof openTrials>;

/** The runs this thread has prepared lately; a server shares its workers among few runs at a time. */
const opened = new LRUCache<string, Promise<Draw>>({ max: 4 });

async function open({ recipe }: DrawTask): Promise<Draw> {
  const { model, study } = JSON.parse(recipe) as Recipe;
  return openTrials(prepare(await loadModel(model), study).source, (bytes) => room(bytes));
}

/** Draws batches. Their arrays lie in the task's shared memory. */
export default function draw(task: DrawTask): Promise<DrawAnswer> {
  return answerTo(task);
}

/** Where the batches of the current task are written. */
let room: Room = ownRoom;

async function answerTo(task: DrawTask): Promise<DrawAnswer> {
  try {
    let found = opened.get(task.job);
    if (found === undefined) {
      found = open(task);
      opened.set(task.job, found);
    }
    const drawBatch = await found;
    room = roomIn(task.rooms);
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
