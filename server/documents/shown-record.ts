import { FORMAT } from "../../engine/internal.ts";
import type { ShownRecord } from "../../viewer/api/records.ts";
import type { OpenedRecord } from "../record/open.ts";

/** A filed record as a page shows it, with what its seal shows. */
export const shownRecordOf = (opened: OpenedRecord): ShownRecord => ({
  record: opened.record,
  altered: opened.altered.length > 0,
  seal: sealWords(opened),
});

function sealWords({ sealed, altered, from }: OpenedRecord): string {
  if (sealed === null)
    return from === FORMAT
      ? "The file has no seal: an alteration cannot be detected."
      : `The file is of the older format ${from}, which had no digests: an alteration cannot be detected.`;
  return altered.length === 0
    ? "The file's digests are those of its content: it is as it was written. To check that a repetition gives the same figures, use trialband verify."
    : "The file was altered after it was written: its digests are not those of its content.";
}
