import type { RunRecord, StudyDocument } from "../../engine/index.ts";
import type { Pool } from "../runs/pool/pool.ts";

/** A figure: a number, several of one row of a table, or words (a verdict, digits, a digest). */
export type Value = number | string | readonly number[];

/** How far an obtained figure may lie from the published one, and the basis for it. */
export interface Tolerance {
  /** Greatest difference of any one number; `null` if the two must be equal, or agree within what `basis` states. */
  readonly limit: number | null;
  /** Where the limit comes from: half a printed digit, five standard errors, identical bits. */
  readonly basis: string;
}

/** What a check found: one line of the report, before it is put in its group. */
export interface Finding {
  readonly what: string;
  /** Document, edition, clause or table; or `common practice`; `null` for the check's own source. */
  readonly source: string | null;
  readonly published: Value;
  readonly obtained: Value;
  readonly unit: string;
  readonly tolerance: Tolerance;
  readonly passed: boolean;
  /** The figures as they are set, with the digits that matter, and the limit without its basis. */
  readonly shown: { readonly published: string; readonly obtained: string; readonly tolerance: string };
}

/** A line of the report. */
export interface CheckLine extends Finding {
  readonly group: string;
  readonly source: string;
}

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
