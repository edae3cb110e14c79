import type { Batch, Problem, Study } from "../../engine/internal.ts";

/** What is asked of a worker. Every message between a program and its workers is in this file. */
export type Asked =
  /** A study to draw, under a number: answered by what its model declares, so that both sides are seen to have the same. */
  | { readonly kind: "open"; readonly study: Study; readonly number: number }
  /** Whole batches of the study of that number, from a trial on. */
  | { readonly kind: "draw"; readonly number: number; readonly first: number; readonly counts: readonly number[] };

export type Answer =
  | { readonly kind: "opened"; readonly number: number; readonly declared: Declared }
  /** The batches drawn, in order; `failure` is what the one after the last of them met. */
  | {
      readonly kind: "drawn";
      readonly number: number;
      readonly first: number;
      readonly batches: readonly Batch[];
      readonly failure: Failure | null;
    }
  | { readonly kind: "failed"; readonly number: number; readonly failure: Failure };

/** What a worker's model declares. */
export interface Declared {
  readonly id: string;
  readonly inputs: readonly string[];
  readonly measurands: readonly string[];
}

/** An error as plain data: an object between threads loses its class. */
export type Failure =
  | {
      readonly kind: "model";
      readonly message: string;
      readonly trial: number | null;
      readonly inputs: Readonly<Record<string, number>>;
    }
  | { readonly kind: "input"; readonly problems: readonly Problem[] }
  | { readonly kind: "other"; readonly message: string };
