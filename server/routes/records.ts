import { VERSION } from "../../engine/index.ts";
import { migrate } from "../record/migrate.ts";
import { requireRecord } from "../record/schema.ts";
import { sealOf, type SealedRecord } from "../record/seal.ts";
import { refused } from "../errors.ts";
import type { RouteRegistration } from "./route.ts";

/** A record from a file, to be looked at: brought to today's format, with what its seal says. Nothing is kept. */
export const records: RouteRegistration = (router) => {
  router.post("/records", (request, response) => {
    const document: unknown = request.body;
    const migrated = migrate(document);
    if (migrated === null) {
      throw refused(
        "format",
        (document as { format?: unknown } | null)?.format,
        `the record of a run, as Trialband ${VERSION} and earlier versions write it`,
      );
    }
    const record = migrated.record as unknown as SealedRecord;
    if (migrated.from !== record.format) {
      response.json({
        record,
        seal: `The file is of the older format ${migrated.from}, which had no digests: nothing shows whether it was altered.`,
      });
      return;
    }
    requireRecord(record);
    response.json({ record, seal: sealWords(record) });
  });
};

function sealWords(record: SealedRecord): string {
  const holds = (["study", "results", "record"] as const).every((part) => record.seal[part] === sealOf(record)[part]);
  return holds
    ? "The file's digests are those of its content: it is as it was written. Whether a repetition gives the same figures, trialband verify tells."
    : "The file was altered after it was written: its digests are not those of its content.";
}
