import { z } from "zod";
import type { Immutable } from "../../engine/internal.ts";
import { shownRecordSchema } from "../../engine/record/index.ts";
import { fault } from "./fault.ts";
import { studyOrId } from "./study-document.ts";

export const RUN_STATES = ["waiting", "running", "finished", "failed", "cancelled"] as const;
export type RunState = (typeof RUN_STATES)[number];

/** Trials drawn, and the most there will be. */
const progress = { trials: z.int().describe("Trials drawn"), limit: z.int().describe("Most there will be") };
const notKept = z
  .string()
  .nullable()
  .describe("Why the run could not be kept, so that it is lost when the server stops; null if it is kept");

/** A run as a list shows it: small, so that thousands can be kept in memory. */
const headFields = {
  id: z.string(),
  title: z.string(),
  model: z.string(),
  state: z.enum(RUN_STATES),
  startedAt: z.iso.datetime(),
  ...progress,
  verdict: z
    .strictObject({
      measurand: z.string(),
      validated: z.boolean(),
      firm: z.boolean().exactOptional().describe("Missing in runs filed before 0.3"),
      nothingVaries: z.literal(true).exactOptional(),
    })
    .nullable()
    .describe(
      "Of the first measurand that is not validated, else of the first that the trials do not decide, else of the first; null if the run did not finish",
    ),
  study: z.string().nullable().describe("Id of the listed study it was started from, or null"),
  studyVersion: z
    .int()
    .describe("Version of the study within its series: the listed study, or the study of the laboratory's own. From 1"),
  own: z.string().nullable().describe("Id of the study of the laboratory's own that it is a run of, or null"),
  note: z.string().nullable().describe("What a person wrote beside the run, or null"),
  noteVersion: z.int().describe("Version of the note; 0 if none was ever written"),
  notKept,
  unreadable: z
    .array(z.string())
    .exactOptional()
    .describe(
      "Fields that were altered in the store so that they cannot be read; a backup has them. Missing if all is well",
    ),
};
export const runHead = z.strictObject(headFields).meta({ id: "RunHead" });
export type RunHead = Immutable<z.output<typeof runHead>>;

/** `GET /api/runs`, newest first; `?limit=&after=` for a part, as the header Link leads on. */
export const runList = z.array(runHead);
export type RunList = Immutable<z.output<typeof runList>>;

/** `GET /api/removed-runs`, the last removed first: each can be put back. */
export const removedRun = z
  .strictObject({
    ...headFields,
    removedAt: z.iso.datetime(),
    removedBy: z.string().nullable().describe("Who removed it, if the server knew its users"),
  })
  .meta({ id: "RemovedRun" });
export type RemovedRun = Immutable<z.output<typeof removedRun>>;
export const removedRunList = z.array(removedRun);

/** `GET /api/runs/:id`: a run with its record, if it has one. */
export const run = z
  .strictObject({ ...headFields, record: shownRecordSchema.nullable(), error: fault.nullable() })
  .meta({ id: "Run" });
export type Run = Immutable<z.output<typeof run>>;

/** `POST /api/runs`. Seed and trials take the place of the study's own and are checked with it. */
export const runRequest = z
  .strictObject(
    {
      study: studyOrId.refine((study): boolean => study !== undefined, "the id of a listed study, or a study document"),
      own: z
        .string("the id of a study of one's own, or new")
        .optional()
        .describe(
          "Which study of the laboratory's own a study in the request is a version of, or new for one that begins with it; without it, the one that last had a run of this title",
        ),
      seed: z
        .unknown()
        .meta({ override: { type: "string" } })
        .optional(),
      trials: z
        .unknown()
        .meta({ override: { anyOf: [{ type: "integer", minimum: 1000 }, { const: "adaptive" }] } })
        .optional(),
    },
    {
      error: ({ code }) =>
        code === "unrecognized_keys"
          ? "nothing: a run is asked for with study, own, seed and trials"
          : "a JSON object with a study, sent as application/json",
    },
  )
  .meta({ id: "RunRequest" });
export type RunRequest = z.infer<typeof runRequest>;

export const startedRun = z.strictObject({ id: z.string() }).meta({ id: "StartedRun" });
export type StartedRun = Immutable<z.output<typeof startedRun>>;

/** `PUT /api/kept-runs/:id/note` answers with the run's head. */
export const noteRequest = z
  .object({ note: z.string("a text; an empty one takes the note away") }, "a JSON object with a note")
  .meta({ id: "NoteRequest" });
export type NoteRequest = z.infer<typeof noteRequest>;

/**
 * An event of `GET /api/runs/:id/events`. The last is finished, failed or cancelled. Its id is the trials it tells of, of the
 * last one `end`; a reader who sends it as Last-Event-ID gets what is newer.
 */
export const runEvent = z
  .discriminatedUnion("type", [
    z.strictObject({ type: z.literal("progress"), ...progress }),
    z.strictObject({ type: z.literal("snapshot"), record: shownRecordSchema }),
    z.strictObject({ type: z.literal("finished"), record: shownRecordSchema, notKept }),
    z.strictObject({ type: z.literal("failed"), error: fault, notKept }),
    z.strictObject({ type: z.literal("cancelled"), trials: progress.trials, notKept }),
  ])
  .meta({ id: "RunEvent" });
export type RunEvent = Immutable<z.output<typeof runEvent>>;
