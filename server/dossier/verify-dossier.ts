import { createHash } from "node:crypto";
import { VERSION } from "../../engine/index.ts";
import { Fault, reportOf } from "../errors.ts";
import { parseJson } from "../intake/json.ts";
import { openRecord, recordDigest } from "../record/open.ts";
import { reportDocument } from "../report/document.ts";
import type { Verification, VerifyOptions } from "../verify/verify.ts";
import { unpackBag } from "./archive.ts";
import { bagProblems, payloadOf, type Files } from "./bag.ts";
import { evidenceOf, placeOfEvidence, PLACES, type DossierDescription } from "./contents.ts";
import { HOW_TO_VERIFY } from "./how-to-verify.ts";
import { builtFrom, jsonText } from "./make.ts";

/** Problems named one by one. */
const NAMED = 8;

/**
 * Checks a dossier: its payload against its digests, every part against the record, and the record itself with the
 * signature that lies in the dossier. Never throws for a bad dossier: that is an outcome.
 *
 * @param verify verifies a record, as `verifyRecord` does
 */
export async function verifyDossier(
  bytes: Uint8Array,
  name: string,
  verify: (record: Uint8Array, name: string, signed: Pick<VerifyOptions, "signature">) => Promise<Verification>,
): Promise<Verification> {
  let files: Files;
  try {
    files = unpackBag(bytes, name);
  } catch (error) {
    const { message, problems } = reportOf(error);
    return refusal([
      message,
      ...problems.map(({ place, value, accepted }) => `${place}: got ${value}; expected ${accepted}`),
    ]);
  }
  const problems = bagProblems(files);
  if (problems.length > 0)
    return refusal([
      "The dossier is not as it was made:",
      ...problems.slice(0, NAMED).map(({ path, found, expected }) => `${path}: got ${found}; expected ${expected}`),
      ...(problems.length > NAMED ? [`and ${problems.length - NAMED} more problems`] : []),
    ]);
  const payload = payloadOf(files);
  const parts = await partsAgainstRecord(payload, name);
  if (parts.wrong.length > 0) return refusal(["The parts of the dossier do not belong together:", ...parts.wrong]);
  const signature = payload.get(PLACES.signature);
  let signed: { readonly signature?: unknown } = {};
  if (signature !== undefined) {
    try {
      signed = { signature: parseJson(signature, PLACES.signature) };
    } catch (error) {
      return refusal([reportOf(error).message]);
    }
  }
  const found = await verify(payload.get(PLACES.record)!, PLACES.record, signed);
  return {
    ...found,
    // A report that another build made cannot be held against one made here: no more is said than that the figures agree.
    outcome: found.outcome === "bits" && !parts.reportsCompared ? "agrees" : found.outcome,
    notes: [
      `The dossier is whole: ${payload.size} files have the digests of its manifest.`,
      ...parts.notes,
      ...found.notes,
    ],
  };
}

interface Parts {
  readonly wrong: readonly string[];
  readonly notes: readonly string[];
  /** Whether the reports are those that this version makes of the record. */
  readonly reportsCompared: boolean;
}

async function partsAgainstRecord(payload: Files, name: string): Promise<Parts> {
  const wrong: string[] = [];
  const notes: string[] = [];
  const required = [
    PLACES.record,
    PLACES.study,
    PLACES.reports.en,
    PLACES.reports.de,
    PLACES.described,
    PLACES.verifying,
  ];
  for (const place of required) if (!payload.has(place)) wrong.push(`data/${place} is missing.`);
  if (wrong.length > 0) return { wrong, notes, reportsCompared: false };
  try {
    const { record } = openRecord(payload.get(PLACES.record)!, PLACES.record);
    if (textIn(payload, PLACES.study) !== jsonText(record.study))
      wrong.push("data/study.json is not the record's study.");
    const described = parseJson(payload.get(PLACES.described)!, PLACES.described) as Partial<DossierDescription> | null;
    if (described?.format !== "trialband-dossier/1" || described.record !== recordDigest(record))
      wrong.push("data/dossier.json does not describe this record.");
    const expected = new Set<string>([...required, PLACES.signature]);
    for (const file of evidenceOf(record)) {
      const place = placeOfEvidence(file);
      expected.add(place);
      const lies = payload.get(place);
      if (lies === undefined) notes.push(`${file.name} (SHA-256 ${file.sha256}) is not in the dossier.`);
      else if (createHash("sha256").update(lies).digest("hex") !== file.sha256)
        wrong.push(`data/${place} is not the file that the study names.`);
    }
    for (const place of payload.keys())
      if (!expected.has(place)) wrong.push(`data/${place} is no part of a dossier of this record.`);
    const compared =
      textIn(payload, PLACES.verifying) === HOW_TO_VERIFY &&
      textIn(payload, PLACES.reports.en) === (await reportDocument(record, PLACES.record, { language: "en" })) &&
      textIn(payload, PLACES.reports.de) === (await reportDocument(record, PLACES.record, { language: "de" }));
    if (!compared && isThisBuild(described?.software))
      wrong.push("A report, or what is said of verifying, is not the one that belongs to this record.");
    else if (!compared)
      notes.push(
        "Another build made the reports, as far as the dossier's own word goes, so they were not compared: read those that trialband report makes of the record.",
      );
    return { wrong, notes, reportsCompared: compared };
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    return {
      wrong: [`${name}: ${error.message}`, ...error.problems.map(({ place, value }) => `${place}: got ${value}`)],
      notes,
      reportsCompared: false,
    };
  }
}

const textIn = (payload: Files, place: string): string => new TextDecoder().decode(payload.get(place));

const isThisBuild = (software: Partial<DossierDescription["software"]> | undefined): boolean =>
  software?.version === VERSION &&
  Object.entries(builtFrom()).every(([fact, value]) => software[fact as keyof typeof software] === value);

const refusal = (reasons: readonly string[]): Verification => ({
  outcome: "refused",
  reasons,
  notes: [],
  title: null,
  study: null,
  figures: 0,
  differences: [],
  agreement: null,
});
