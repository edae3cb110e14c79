import { z } from "zod";
import type { RunRecord } from "../../engine/index.ts";
import type { Fault } from "./fault.ts";

export type RunState = "waiting" | "running" | "finished" | "failed" | "cancelled";

/** A run as a list shows it: small, so that thousands can be kept in memory. */
export interface RunHead {
  readonly id: string;
  readonly title: string;
  readonly model: string;
  readonly state: RunState;
  readonly startedAt: string;
  readonly trials: number;
  readonly limit: number;
  /**
   * Of the first measurand that is not validated, else of the first that the trials do not decide, else of the first;
   * `null` if the run did not finish. Heads filed before 0.3 do not have `firm`.
   */
  readonly verdict: {
    readonly measurand: string;
    readonly validated: boolean;
    readonly firm?: boolean;
    readonly nothingVaries?: true;
  } | null;
  /** Id of the listed study it was started from, or `null`. */
  readonly study: string | null;
  /** Version of the study within its series: the listed study, or the studies of its title. From 1. */
  readonly studyVersion: number;
  /** What a person wrote beside the run, or `null`. */
  readonly note: string | null;
  /** Version of the note; 0 if none was ever written. */
  readonly noteVersion: number;
  /** Why the run could not be kept, so that it is lost when the server stops; `null` if it is kept. */
  readonly notKept: string | null;
}

/** `GET /api/runs`, newest first; `?limit=&after=` for a part, as the header Link leads on. */
export type RunList = readonly RunHead[];

/** `GET /api/runs/:id`: a run with its record, if it has one. */
export interface Run extends RunHead {
  readonly record: RunRecord | null;
  readonly error: Fault | null;
}

/** `POST /api/runs`. Seed and trials take the place of the study's own and are checked with it. */
export const runRequest = z.strictObject(
  {
    study: z.unknown().refine((study): boolean => study !== undefined, "the id of a listed study, or a study document"),
    seed: z.unknown().optional(),
    trials: z.unknown().optional(),
  },
  {
    error: ({ code }) =>
      code === "unrecognized_keys"
        ? "nothing: a run is asked for with study, seed and trials"
        : "a JSON object with a study, sent as application/json",
  },
);
export type RunRequest = z.infer<typeof runRequest>;

export interface StartedRun {
  readonly id: string;
}

/** `PUT /api/kept-runs/:id/note` answers with the run's head. */
export const noteRequest = z.object(
  { note: z.string("a text; an empty one takes the note away") },
  "a JSON object with a note",
);
export type NoteRequest = z.infer<typeof noteRequest>;

/**
 * An event of `GET /api/runs/:id/events`. The last is finished, failed or cancelled. Its id is the trials it tells of, of the
 * last one `end`; a reader who sends it as Last-Event-ID gets what is newer.
 */
export type RunEvent =
  | { readonly type: "progress"; readonly trials: number; readonly limit: number }
  | { readonly type: "snapshot"; readonly record: RunRecord }
  | ({ readonly type: "finished"; readonly record: RunRecord } & Kept)
  | ({ readonly type: "failed"; readonly error: Fault } & Kept)
  | ({ readonly type: "cancelled"; readonly trials: number } & Kept);

/** Why a run that ended could not be kept, as in its head. */
type Kept = Pick<RunHead, "notKept">;
