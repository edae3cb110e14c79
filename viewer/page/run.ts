import type { Run as KeptRun } from "../api/runs.ts";

/** A run on the sheet: one of the server's, or a record that came from a file. */
export interface Run
  extends
    Pick<KeptRun, "id" | "title" | "state" | "trials" | "limit" | "record" | "error">,
    Partial<Pick<KeptRun, "study" | "studyVersion" | "own" | "startedAt" | "notKept">> {
  /** A record that came from a file: the server has no such run. */
  readonly file?: {
    readonly name: string;
    /** Byte for byte. */
    readonly text: string;
    /** What its digests say, as a sentence. */
    readonly seal: string;
    /** They say that it was altered after it was written. */
    readonly altered: boolean;
  };
}
