import type { RunRecord } from "../../../engine/index.ts";
import type { FaultReport } from "../../errors.ts";
import type { LoadedStudy } from "../../shelves/study.ts";

export type RunState = "waiting" | "running" | "finished" | "failed" | "cancelled";

/** What a list shows of a run: small, so that thousands can be held at once. */
export interface RunHead {
  readonly id: string;
  readonly title: string;
  readonly model: string;
  readonly state: RunState;
  readonly startedAt: string;
  readonly trials: number;
  readonly limit: number;
  /** Of the first measurand that is not validated, or of the first; `null` if the run did not finish. */
  readonly verdict: { readonly measurand: string; readonly validated: boolean } | null;
  /** Id of the listed study it was started from, or `null`. */
  readonly study: string | null;
  /** What a person wrote beside the run, or `null`. */
  readonly note: string | null;
}

/** The rest of a run: read only when asked for. */
export interface RunBody {
  readonly loaded: LoadedStudy;
  readonly record: RunRecord | null;
  readonly error: FaultReport | null;
}

/** A run as it is kept. */
export interface StoredRun {
  readonly head: RunHead;
  readonly body: RunBody;
}

/** Where runs are kept. What `save` and `remove` have returned from holds after a crash. */
export interface RunStore {
  /** Keeps a run, in place of what was kept under its id. */
  save(run: StoredRun): Promise<void>;
  /** The heads of every run kept, oldest first. What cannot be read is left out, with one warning. */
  heads(): Promise<readonly RunHead[]>;
  /** One run whole; `null` if none is kept under the id. @throws what is kept cannot be read */
  load(id: string): Promise<StoredRun | null>;
  /** Forgets a run; one that is not kept is no error. */
  remove(id: string): Promise<void>;
}
