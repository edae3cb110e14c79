import { batchBytes, KEPT_TRIALS } from "../../engine/internal.ts";

/** Seconds that a job should take: much more than to hand it out, little enough to lose with a worker or to wait for. */
const SECONDS = 1.5;
/** Seconds that it should take at least, also at the end. */
const FEWEST_SECONDS = 0.05;
/** Parts of what is left that each thread is given next: the last jobs are short, so that no thread waits long for another. */
const SHARES = 5;
/** Bytes of a batch and a measurand whose trials are only counted. */
const BYTES_COUNTED = 4300;
/** Batches of a job at most, of a run of known length. */
const MOST = 1000;
/** An adaptive run may end after any batch. */
const MOST_ADAPTIVE = 10;
/** Bytes of one answer, about. */
const MOST_BYTES = 8_000_000;

/** What the size of a job depends on. */
export interface Sizing {
  readonly first: number;
  /** Trials of the run at most. */
  readonly limit: number;
  /** Trials of a batch. */
  readonly batch: number;
  readonly measurands: number;
  readonly adaptive: boolean;
  readonly threads: number;
  /** Seconds that a batch takes a thread; `null` before the first answer. */
  readonly secondsABatch: number | null;
}

/** Batches of the next job. */
export function batchesOfNext(sizing: Sizing): number {
  const { first, limit, batch, measurands, adaptive, threads, secondsABatch } = sizing;
  const left = Math.ceil((limit - first) / batch);
  // Before it is known how long a trial takes it may take a second.
  if (secondsABatch === null) return Math.min(left, 1);
  const inSeconds = (seconds: number): number => Math.max(1, Math.round(seconds / Math.max(secondsABatch, 1e-9)));
  const bytes = first < KEPT_TRIALS ? batchBytes(measurands, batch) : BYTES_COUNTED * measurands;
  return Math.max(
    1,
    Math.min(
      left,
      inSeconds(SECONDS),
      Math.max(inSeconds(FEWEST_SECONDS), Math.ceil(left / (SHARES * Math.max(1, threads)))),
      Math.floor(MOST_BYTES / bytes),
      adaptive ? MOST_ADAPTIVE : MOST,
    ),
  );
}

/** Trials of each batch. */
export const countsOf = (first: number, batches: number, batch: number, limit: number): number[] =>
  Array.from({ length: batches }, (_, i) => Math.min(batch, limit - first - i * batch));
