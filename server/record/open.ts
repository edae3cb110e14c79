import { show, type Problem, type ReportedRecord, type SealedRecord } from "../../engine/index.ts";
import { FORMAT, schemaProblems } from "../../engine/internal.ts";
import { migrate, recordSchema, shownRecordSchema } from "../../engine/record/index.ts";
import { Fault } from "../errors.ts";
import { parseJson, textOf } from "../intake/json.ts";
import { leavesOf, showLeaf } from "./leaves.ts";
import { referenceProblems } from "./references.ts";
import { digestOf } from "../canonical.ts";
import { sealOf } from "./seal.ts";

/** Problems named at once; a file of another kind has hundreds. */
const MOST_PROBLEMS = 8;

/** Parts of a seal whose digests can be compared with what stands in a record. */
const SEALED_PARTS = ["study", "results", "record"] as const;
type SealedPart = (typeof SEALED_PARTS)[number];

/** A filed record, brought to today's format and checked. */
export interface OpenedRecord {
  readonly record: ReportedRecord;
  /** The same record, if it has a seal; a record of an older format has none. */
  readonly sealed: SealedRecord | null;
  /** The format it was written in. */
  readonly from: string;
  /** Whether the format it was written in could not hold what stands at a place of today's. */
  readonly lacking: (place: string) => boolean;
  /** Parts whose digests are not those of what stands in the file. Empty for a record without a seal. */
  readonly altered: readonly SealedPart[];
}

/** A record with the very text it was filed as. */
export interface OpenedFile extends OpenedRecord {
  readonly text: string;
}

/**
 * Opens the file of a record.
 *
 * @param name how the file is called in a fault
 * @throws {Fault} `not-json`; `bad-input` with every place that cannot be used (the first few), what is accepted there and
 *   what was found
 */
export function openRecord(content: Uint8Array | string, name: string): OpenedFile {
  const text = textOf(content, name);
  return { ...openDocument(parseJson(text, name), name), text };
}

/** Opens a record that was parsed already. @throws {Fault} `bad-input`, as `openRecord` */
export function openDocument(document: unknown, name: string): OpenedRecord {
  const migrated = migrate(document);
  if (migrated === null) {
    const format = (document as { readonly format?: unknown } | null)?.format;
    return refused(name, [
      { place: "format", value: show(format), accepted: 'the format of a record, such as "trialband-record/2"' },
    ]);
  }
  const parsed = shownRecordSchema.safeParse(migrated.record);
  if (!parsed.success) return refused(name, schemaProblems(parsed.error, migrated.record));
  // What was filed, not what the schema made of it: filling a default would change a digest.
  const record = migrated.record as unknown as ReportedRecord;
  const { from } = migrated;
  const problems = [...referenceProblems(record), ...(from === FORMAT ? [] : foreignParts(document, record, from))];
  if (problems.length > 0) return refused(name, problems);
  const lacking = from === FORMAT ? () => false : lackingIn(document, record);
  if (record.seal === undefined && record.provenance === undefined)
    return { record, sealed: null, from, lacking, altered: [] };
  const whole = recordSchema.safeParse(record);
  if (!whole.success) return refused(name, schemaProblems(whole.error, record));
  const sealed = record as SealedRecord;
  return { record, sealed, from, lacking, altered: alteredParts(sealed) };
}

/** Parts of a record that are not what it was sealed with; none of one without a seal. */
export function alteredParts(record: ReportedRecord): readonly SealedPart[] {
  const { seal } = record;
  if (seal === undefined) return [];
  const found = sealOf(record as SealedRecord);
  return SEALED_PARTS.filter((part) => seal[part] !== found[part]);
}

/** Parts of a document that its own format never had: it is one of a later format under another name. */
function foreignParts(document: unknown, record: ReportedRecord, from: string): Problem[] {
  const kept = leavesOf(record);
  return [...leavesOf(document)]
    .filter(([place, leaf]) => place !== "format" && (LATER.test(place) || kept.get(place) !== leaf))
    .map(([place, leaf]) => ({
      place,
      value: showLeaf(leaf),
      accepted: `nothing: the format ${from} had no such part`,
    }));
}

/** Parts that no format but today's has, which a migration carries over as they are. */
const LATER = /^(seal|provenance|environment)(\.|$)/;

/** Whether a place holds what the migration filled in. */
function lackingIn(document: unknown, record: ReportedRecord): (place: string) => boolean {
  const before = leavesOf(document);
  const filled = [...leavesOf(record).keys()].filter((place) => !before.has(place));
  return (place) => filled.some((part) => place === part || place.startsWith(`${part}.`));
}

/** The digest of a record: as it was sealed, or of what stands in it. */
export function recordDigest(record: ReportedRecord): string {
  const { seal, ...unsealed } = record;
  return seal?.record ?? digestOf(unsealed);
}

/** Why nothing is made from a record that was altered after it was sealed. */
export function alteredFault(record: ReportedRecord, altered: readonly SealedPart[], name: string): Fault {
  const seal = sealOf(record as SealedRecord);
  return new Fault(
    "bad-input",
    `${name} was altered after it was sealed, so nothing is made from it.`,
    altered.map((part) => ({
      place: `seal.${part}`,
      value: show(record.seal?.[part]),
      accepted: `the digest of what stands in the file, ${seal[part]}`,
    })),
  );
}

function refused(name: string, problems: readonly Problem[]): never {
  const more = problems.length > MOST_PROBLEMS ? ` The first ${MOST_PROBLEMS} of ${problems.length} problems:` : "";
  throw new Fault(
    "bad-input",
    `${name} is not a record of Trialband that can be read; trialband run --out writes one.${more}`,
    problems.slice(0, MOST_PROBLEMS),
  );
}
