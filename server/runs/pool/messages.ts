import type { Study } from "../../../engine/index.ts";
import type { Batch } from "../../../engine/internal.ts";
import type { FaultReport } from "../../errors.ts";
import type { ModelPlace } from "../../shelves/model.ts";

/** What a job draws: the model, by its place, and the study. */
export interface Recipe {
  readonly model: ModelPlace;
  readonly study: Study;
}

/** A worker's task: whole batches of one run, from a trial on. Every message between threads is in this file. */
export interface DrawTask {
  /** Same for all tasks of a run, so that a worker prepares the study once. */
  readonly job: string;
  /** What to draw, a `Recipe` as JSON: as one text it is sent in a fraction of the time, and read once a worker. */
  readonly recipe: string;
  readonly first: number;
  /** Trials of each batch to draw, in order. */
  readonly counts: readonly number[];
  /** Shared memory for the arrays of the answer: nothing is copied to another thread, and the next task uses it again. */
  readonly rooms: readonly SharedArrayBuffer[];
  /** One shared integer: once it is 1 no further batch is begun, and the answer holds those that were. */
  readonly stop: Int32Array;
}

export type DrawAnswer =
  | { readonly ok: true; readonly batches: readonly Batch[] }
  | { readonly ok: false; readonly report: FaultReport };
