import { createHash } from "node:crypto";
import { VERSION } from "../../engine/index.ts";
import { Fault } from "../errors.ts";
import { buildFacts } from "../record/build-facts.ts";
import { alteredFault, openRecord, recordDigest } from "../record/open.ts";
import { reportDocument } from "../report/document.ts";
import { packBag } from "./archive.ts";
import { makeBag } from "./bag.ts";
import { evidenceOf, placeOfEvidence, PLACES, type DossierDescription, type EvidenceFile } from "./contents.ts";
import { HOW_TO_VERIFY } from "./how-to-verify.ts";

export interface DossierParts {
  /** A detached signature of the record, as its file has it. */
  readonly signature?: Uint8Array;
  /** The bytes of a file of evidence; `null` if they are not at hand. */
  readonly evidence: (file: EvidenceFile) => Promise<Uint8Array | null>;
  /** Day on which the dossier is made. */
  readonly today: Date;
}

export interface Dossier {
  readonly bytes: Uint8Array;
  /** Name of its file, from the record's digest. */
  readonly name: string;
  /** Evidence that was not at hand. */
  readonly missing: readonly EvidenceFile[];
}

/**
 * Everything behind a result in one file: record, study, signature, raw logs and certificates, reports, the software's
 * version and how to verify it, as a bag (RFC 8493) in a ZIP file.
 *
 * @param content the record's file
 * @param name how it is called in a fault
 * @throws {Fault} `bad-input`: no record, or one that was altered
 */
export async function makeDossier(
  content: Uint8Array | string,
  name: string,
  { signature, evidence, today }: DossierParts,
): Promise<Dossier> {
  const { record, altered, text } = openRecord(content, name);
  if (altered.length > 0) throw alteredFault(record, altered, name);
  const bytes = (of: string): Uint8Array => new TextEncoder().encode(of);
  const payload = new Map<string, Uint8Array>([
    [PLACES.record, bytes(text)],
    [PLACES.study, bytes(jsonText(record.study))],
    [PLACES.reports.en, bytes(await reportDocument(record, PLACES.record, { language: "en" }))],
    [PLACES.reports.de, bytes(await reportDocument(record, PLACES.record, { language: "de" }))],
    [PLACES.verifying, bytes(HOW_TO_VERIFY)],
  ]);
  if (signature !== undefined) payload.set(PLACES.signature, signature);
  const missing: EvidenceFile[] = [];
  const listed: DossierDescription["evidence"][number][] = [];
  for (const file of evidenceOf(record)) {
    const found = await evidence(file);
    const same = found !== null && createHash("sha256").update(found).digest("hex") === file.sha256;
    if (found !== null && !same)
      throw new Fault("internal", `What was found for ${file.name} does not have the digest ${file.sha256}.`);
    if (found === null) missing.push(file);
    else payload.set(placeOfEvidence(file), found);
    listed.push({ name: file.name, sha256: file.sha256, file: found === null ? null : placeOfEvidence(file) });
  }
  const digest = recordDigest(record);
  const description: DossierDescription = {
    format: "trialband-dossier/1",
    record: digest,
    title: record.study.title,
    software: { name: "Trialband", version: VERSION, ...builtFrom() },
    evidence: listed,
  };
  payload.set(PLACES.described, bytes(jsonText(description)));
  const short = digest.slice(0, 16);
  const files = makeBag(payload, [
    ...(record.study.laboratory === undefined ? [] : [["Source-Organization", record.study.laboratory] as const]),
    ["External-Description", `Dossier of an evaluation of measurement uncertainty: ${record.study.title}`],
    ["External-Identifier", `sha256:${digest}`],
    ["Bagging-Date", today.toISOString().slice(0, 10)],
    ["Bag-Software-Agent", `Trialband ${VERSION}`],
  ]);
  return { bytes: packBag(`dossier-${short}`, files), name: `dossier-${short}.zip`, missing };
}

/** What a dossier says of the build that made it. */
export const builtFrom = (): Omit<DossierDescription["software"], "name" | "version"> => ({
  commit: buildFacts.commit,
  engineDigest: buildFacts.engineDigest,
  modelsDigest: buildFacts.modelsDigest,
});

export const jsonText = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`;
