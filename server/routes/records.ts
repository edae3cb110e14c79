import { FORMAT } from "../../engine/index.ts";
import type { ShownRecord } from "../../viewer/api/records.ts";
import { openDocument, type OpenedRecord } from "../record/open.ts";
import type { RouteRegistration } from "./route.ts";

/** A record from a file, to be shown: brought to today's format, with what its seal shows. Nothing is kept. */
export const records: RouteRegistration = (router) => {
  router.post("/records", "read", (request, response) => {
    const opened = openDocument(request.body, "The file");
    response.json({ record: opened.record, seal: sealWords(opened) } satisfies ShownRecord);
  });
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
