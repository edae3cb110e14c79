import { z } from "zod";
import { FORMAT } from "../../engine/internal.ts";
import { shownRecord, type ShownRecord } from "../../viewer/api/records.ts";
import { json } from "../openapi/described.ts";
import { openDocument, type OpenedRecord } from "../record/open.ts";
import type { RouteRegistration } from "./route.ts";

/** A record from a file, to be shown: brought to today's format, with what its seal shows. Nothing is kept. */
export const records: RouteRegistration = (router) => {
  router.post(
    "/records",
    "read",
    {
      id: "openRecord",
      summary: "A filed record, brought to today's format",
      description: "With what its seal shows. Nothing is kept.",
      body: json(z.unknown().meta({ description: "A record of any version of Trialband, as its file has it." })),
      answers: { 200: { description: "The record, and what its digests say.", content: json(shownRecord) } },
    },
    (request, response) => {
      const opened = openDocument(request.body, "The file");
      response.json({
        record: opened.record,
        altered: opened.altered.length > 0,
        seal: sealWords(opened),
      } satisfies ShownRecord);
    },
  );
};

function sealWords({ sealed, altered, from }: OpenedRecord): string {
  if (sealed === null)
    return from === FORMAT
      ? "The file has no seal: an alteration cannot be detected."
      : `The file is of the older format ${from}, which had no digests: an alteration cannot be detected.`;
  return altered.length === 0
    ? "The file's digests are those of its content: it is as it was written. To check that a repetition gives the same figures, use trialband verify."
    : "The file was altered after it was written: its digests are not those of its content.";
}
