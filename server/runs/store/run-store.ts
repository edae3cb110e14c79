import type { RunRecord } from "../../../engine/index.ts";
import type { RunHead } from "../../../viewer/api/runs.ts";
import type { FaultReport } from "../../errors.ts";
import type { KeptStudy } from "../../shelves/study.ts";

/** The rest of a run: read only when asked for. */
export interface RunBody {
  /** Without the model, which is code: `reference` leads to it. */
  readonly loaded: KeptStudy;
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
