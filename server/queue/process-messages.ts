import type { FaultReport } from "../errors.ts";
import type { ModelPlace } from "../shelves/model.ts";
import type { Job } from "./messages.ts";
import type { QueueSettings } from "./settings.ts";

/** What a worker's process is started with. It comes by a message: a password shows in no argument and no environment. */
export interface ProcessWork {
  readonly kind: "work";
  readonly settings: QueueSettings;
  /** Name by which others see the worker. */
  readonly name: string;
  /** Folder of compiled models, which the process that started it removes. */
  readonly folder: string;
  readonly threads: number;
  /** Models of one's own on this machine that it may run. */
  readonly models: readonly string[];
  /** Whether it runs the model of anyone who can write into the queue. */
  readonly all: boolean;
  readonly seconds: number;
  readonly lostAfter?: number;
}

/** Trials to evaluate one by one. */
export interface ProcessProbe extends Pick<Job, "first" | "counts"> {
  readonly kind: "probe";
  readonly model: ModelPlace;
  /** The study as JSON. */
  readonly study: string;
  /** File that holds the trial which is being evaluated. */
  readonly file: string;
  /** The one trial to evaluate; `null` for all. */
  readonly only: number | null;
}

export type ToProcess = ProcessWork | ProcessProbe | { readonly kind: "close" };

export type FromProcess =
  | { readonly ready: true }
  | { readonly tell: string }
  | { readonly failed: FaultReport }
  /** A probe has come to the end of its trials. */
  | { readonly done: true };
