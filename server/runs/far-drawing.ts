import type { Accumulation, AccumulationState, Batch, Prepared } from "../../engine/internal.ts";
import type { KeptStudy } from "../shelves/study.ts";

/** Draws trials on machines far away, in place of a pool of threads. */
export interface Fleet {
  /** Begins a study's trials, or takes them up where another coordinator left them. @throws {Fault} `cancelled` */
  claim(study: KeptStudy, prepared: Prepared, signal: AbortSignal | undefined): Promise<FarDraw>;
  /** Threads that were at work at once, at most. */
  readonly workers: number;
  close(): Promise<void>;
}

/** The trials of one study. */
export interface FarDraw {
  /** What was gathered before, if it is no longer kept as single answers. */
  readonly state: AccumulationState | null;
  /**
   * Draws until enough is gathered, and forgets the draw. What is gathered is whole when `told` is called, and not between
   * the batches that are added before.
   *
   * @throws {Fault} the model's, of the first trial that fails; `cancelled`
   */
  draw(
    gathered: Accumulation,
    add: (batch: Batch) => void,
    told: () => void,
    signal: AbortSignal | undefined,
  ): Promise<void>;
}
