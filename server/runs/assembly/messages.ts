import type { RunRecord, SealedRecord } from "../../../engine/index.ts";
import type { AccumulationState, Compared } from "../../../engine/internal.ts";
import type { ThreadAnswer } from "../../one-thread.ts";
import type { WrittenRecord } from "../../record/written.ts";
import type { RunHead } from "../../../viewer/api/runs.ts";
import type { Recipe } from "../pool/messages.ts";

/** A record that is written out, with what a list shows of it. */
export interface FiledRecord {
  readonly written: WrittenRecord;
  readonly trials: number;
  readonly verdict: RunHead["verdict"];
}

/** What the record of a run is assembled from: plain data, and trials in shared memory. */
export interface Gathering {
  readonly recipe: Recipe;
  readonly gathered: AccumulationState;
}

/** What a whole record needs besides. */
export interface Filing extends Gathering {
  readonly sweep: SealedRecord["sweep"];
  readonly compared: Compared | undefined;
  readonly workers: number;
  /** When the run began, in milliseconds since 1970. */
  readonly began: number;
  /** Digest and source of a model of one's own. */
  readonly module: { readonly digest: string; readonly source: string } | null;
}

/** A task of the thread that assembles records. */
export type AssemblyTask =
  | ({ readonly kind: "compare" } & Pick<Gathering, "recipe">)
  | ({ readonly kind: "figures" } & Gathering)
  | ({ readonly kind: "file" } & Filing);

/** What each task gives. */
export interface AssemblyResults {
  /** What the explanation is made from. */
  readonly compare: Compared;
  /** The record without what is only made of a whole run. */
  readonly figures: RunRecord;
  readonly file: FiledRecord;
}

export type AssemblyAnswer = ThreadAnswer<AssemblyResults[AssemblyTask["kind"]]>;
