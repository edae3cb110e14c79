import type { Queue, QueueEvents } from "bullmq";
import type { Fault } from "../errors.ts";
import type { Board } from "./board.ts";
import type { Job } from "./messages.ts";

/** The job engine's queue of one kind of workers, and what it reports. */
export interface Lane {
  readonly queue: Queue;
  readonly events: QueueEvents;
}

/** Where a coordinator draws. */
export interface Ground {
  readonly board: Board;
  readonly lane: Lane;
  readonly laneName: string;
  readonly draw: string;
  readonly owner: string;
  /** Announces the draw anew to a queue that has lost it. */
  readonly claimAgain: () => Promise<string>;
  readonly notice: (words: string) => void;
  /** The queue's address, without what is secret. */
  readonly shown: string;
  /** How long a batch of this model takes a thread, as far as any of its draws has found. */
  readonly pace: { secondsABatch: number | null };
  readonly threadsSeen: (threads: number) => void;
}

/** A job that is not added to what is gathered yet. */
export interface Pending extends Job {
  readonly id: string;
  readonly name: string;
  answered: boolean;
  bytes: Promise<Buffer | null> | null;
  failed: Fault | null;
  /** When it was last given to the queue or found there, ms. */
  asked: number;
  /** Answers to it that could not be read. */
  unreadable: number;
}
