import type { RunRecord } from "../../engine/index.ts";
import type { FaultReport } from "../errors.ts";
import type { LoadedStudy } from "../loading/study.ts";

/** A run that has ended, as it is kept. */
export interface StoredRun {
  readonly id: string;
  readonly title: string;
  readonly model: string;
  readonly state: "finished" | "failed" | "cancelled";
  readonly startedAt: string;
  readonly trials: number;
  readonly limit: number;
  readonly loaded: LoadedStudy;
  readonly record: RunRecord | null;
  readonly error: FaultReport | null;
}

/** Where ended runs are kept. What `save` has returned from is there after a crash. */
export interface RunStore {
  save(run: StoredRun): Promise<void>;
  /** Every run kept, oldest first. A file that cannot be read is left out and told of once. */
  all(): Promise<readonly StoredRun[]>;
}
