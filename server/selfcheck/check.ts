import type { RunRecord, StudyDocument } from "../../engine/index.ts";
import type { Finding } from "../../viewer/api/selfcheck.ts";
import type { Pool } from "../runs/pool/pool.ts";

/** What a check may use. */
export interface CheckContext {
  /** Fewer trials and fewer points, so that all is done in seconds. */
  readonly quick: boolean;
  readonly signal: AbortSignal | undefined;
  /** Threads that runs are shared among. */
  readonly workers: number;
  /** The pool of those threads. */
  pool(): Promise<Pool>;
  /** Runs a study of `examples/published` of this installation, some of its fields replaced. */
  example(name: string, changes?: Partial<StudyDocument>): Promise<RunRecord>;
  /** Runs a study that the check states itself. */
  run(document: StudyDocument): Promise<RunRecord>;
}

/** A step of a group: what it does, by what source, and the lines it leads to. */
export interface Check {
  readonly title: string;
  readonly source: string;
  lines(context: CheckContext): readonly Finding[] | Promise<readonly Finding[]>;
}

/** Checks that belong together. One file a group, one line in `groups/index.ts`. */
export interface CheckGroup {
  readonly id: string;
  readonly title: string;
  /** The checks; fewer if they are to be quick. */
  checks(quick: boolean): readonly Check[];
}
