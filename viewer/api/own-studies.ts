import { z } from "zod";
import type { Immutable } from "../../engine/internal.ts";

/** A study of the laboratory's own, as a list shows it. Its runs are those whose `own` is its id. */
export const ownStudy = z
  .strictObject({
    id: z.string(),
    name: z.string().describe("As a person named it; until then the title of its latest version"),
    tags: z.array(z.string()),
    revision: z.int().describe("Version of name and tags; 0 if nobody has named it"),
    made: z.iso.datetime(),
    model: z.string().describe("Of its latest run"),
    last: z.iso.datetime().describe("When its latest run was asked for"),
    runs: z.int(),
    versions: z.int(),
  })
  .meta({ id: "OwnStudy" });
export type OwnStudy = Immutable<z.output<typeof ownStudy>>;

/** `GET /api/own-studies`, the one with the newest run first. */
export const ownStudyList = z.array(ownStudy);
export type OwnStudyList = Immutable<z.output<typeof ownStudyList>>;

const NAME = "a name of 1 to 200 characters";
const TAG = "a tag of 1 to 40 characters";
const TAGS = "at most 12 tags";

/** `PUT /api/own-studies/:id/name` answers with the study. */
export const namingRequest = z
  .strictObject(
    {
      name: z.string(NAME).trim().min(1, NAME).max(200, NAME),
      tags: z.array(z.string(TAG).trim().min(1, TAG).max(40, TAG), TAGS).max(12, TAGS),
    },
    "a JSON object with name and tags",
  )
  .meta({ id: "NamingRequest" });
export type NamingRequest = Immutable<z.input<typeof namingRequest>>;
