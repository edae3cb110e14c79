import { z } from "zod";
import type { Immutable } from "../../engine/internal.ts";

const worker = z
  .strictObject({
    name: z.string().describe("Machine and process"),
    version: z.string().describe("Its version of Trialband"),
    threads: z.int().describe("Threads that draw trials"),
    active: z.int().describe("Jobs that it is at"),
    trials: z.number().describe("Trials that it has drawn"),
    rate: z.number().describe("Trials a second over the last 10 s"),
    since: z.string().describe("When it started"),
    silent: z.number().describe("Seconds since it was heard of"),
    gone: z.boolean().describe("Whether it has not been heard of for so long that its jobs go to others"),
  })
  .meta({ id: "QueueWorker" });

const run = z
  .strictObject({
    title: z.string(),
    trials: z.number().describe("Trials that its coordinator has added"),
    limit: z.number().describe("Trials there will be at most"),
    adaptive: z.boolean().describe("Whether it goes on until its figures settle"),
    waiting: z.int().describe("Jobs that wait for a worker, those of other runs for the same workers among them"),
    active: z.int().describe("Jobs that workers are at, those of other runs for the same workers among them"),
    workers: z.int().describe("Workers that take its jobs"),
    silent: z.number().describe("Seconds since its coordinator was heard of"),
    refusals: z
      .array(z.strictObject({ worker: z.string(), words: z.string() }))
      .describe("Workers that do not take it, and why"),
  })
  .meta({ id: "QueueRun" });

/** What a queue's workers and runs are at. */
const state = z
  .strictObject({
    address: z.string().describe("Of the queue, without what is secret"),
    workers: z.array(worker),
    runs: z.array(run),
  })
  .meta({ id: "QueueState" });
export type QueueState = Immutable<z.output<typeof state>>;

/** `GET /api/queue` */
export const queueAnswer = z
  .strictObject({ queue: state.nullable().describe("null if the server draws with threads of its own") })
  .meta({ id: "Queue" });
export type QueueAnswer = Immutable<z.output<typeof queueAnswer>>;
