import { z } from "zod";
import type { Immutable } from "../../engine/internal.ts";

const headFields = {
  id: z.string(),
  title: z.string(),
  own: z.string().nullable().describe("Id of the own study that it becomes a version of, or null"),
  revision: z.int(),
  made: z.iso.datetime(),
  changed: z.iso.datetime(),
};

/** A study that is being written, as a list shows it. */
export const draftHead = z.strictObject(headFields).meta({ id: "DraftHead" });
export type DraftHead = Immutable<z.output<typeof draftHead>>;

/** `GET /api/drafts`, the one changed last first. */
export const draftList = z.array(draftHead);
export type DraftList = Immutable<z.output<typeof draftList>>;

const form = z
  .record(z.string(), z.unknown(), "the form as the page keeps it, a JSON object")
  .describe("The form as the page keeps it; what is in it is the page's own");

/** `GET /api/drafts/:id` */
export const draft = z.strictObject({ ...headFields, form }).meta({ id: "Draft" });
export type Draft = Immutable<z.output<typeof draft>>;

const TITLE = "a text of at most 500 characters";

/** `PUT /api/drafts/:id` answers with the draft's head. */
export const draftSent = z
  .strictObject(
    { title: z.string(TITLE).max(500, TITLE), own: z.string("the id of an own study, or null").nullable(), form },
    "a JSON object with title, own and form",
  )
  .meta({ id: "DraftSent" });
export type DraftSent = Immutable<z.output<typeof draftSent>>;

/** What an id of a draft looks like: whoever begins one makes it. */
export const DRAFT_ID = /^[a-z0-9-]{8,64}$/;
