import { VERSION, type ReportedRecord, type SealedRecord } from "../../engine/index.ts";

/**
 * Why bits may rightly differ, by the record's own word, as sentences; none if it says that this very installation made
 * it. A record can say what it likes of itself, so that this never makes a record pass: it decides which comparison is
 * made, and with which words.
 *
 * @param older the record's format, if it is not today's
 * @param again the record's study as this installation repeats it
 */
export function otherMakers(filed: ReportedRecord, again: SealedRecord, older: string | null): string[] {
  const { engine, provenance, model, environment } = filed;
  const reasons: string[] = [];
  if (older !== null) reasons.push(`its format is ${older}, which had no digests`);
  if (engine.version !== VERSION) reasons.push(`Trialband ${engine.version} made it, and this is ${VERSION}`);
  if (provenance !== undefined) {
    if (provenance.engineDigest !== again.provenance.engineDigest)
      reasons.push("an engine built from other sources made it");
    if (provenance.modelDigest !== again.provenance.modelDigest)
      reasons.push("its models were built from other sources");
  }
  if (!model.fixedBits && environment?.runtime !== again.environment.runtime)
    reasons.push(
      `it was made on ${environment?.runtime ?? "an unnamed runtime"}, and its model uses functions whose bits JavaScript engines do not share`,
    );
  return reasons;
}

/** What nothing but the record's own word shows, for a reader to see. */
export function ownWord({ environment, provenance, engine }: ReportedRecord): string {
  const made =
    environment === undefined
      ? ""
      : ` on ${environment.startedAt}, in ${environment.seconds} s with ${environment.workers} worker(s), on ${environment.runtime}`;
  return `Not checked, by the record's own word: made by Trialband ${engine.version} (commit ${provenance?.commit ?? "not stated"})${made}.`;
}
