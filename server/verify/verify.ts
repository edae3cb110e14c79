import { type ReportedRecord } from "../../engine/index.ts";
import { FORMAT } from "../../engine/internal.ts";
import { reportOf } from "../errors.ts";
import { studyOfRecord } from "../shelves/record-study.ts";
import { agreementOf, type Agreement } from "./agreement.ts";
import { otherMakers, ownWord } from "./claims.ts";
import { deviations } from "./compare.ts";
import { openRecord, type OpenedFile } from "../record/open.ts";
import { comparedLeaves, evidenceOf, repeatStudy, type Repeat, type RepeatOptions } from "./repeat.ts";
import { digestOf } from "../canonical.ts";
import { recordText, resultsOf } from "../record/seal.ts";
import { keyDigest, signatureHolds } from "../record/signature.ts";

/** A place at which a record is not what its repetition gives. */
export interface Difference {
  readonly place: string;
  readonly filed: string;
  readonly repeated: string;
}

/** The outcome of verifying one record. */
export interface Verification {
  /**
   * - `bits`: this version made it, and it reproduces exactly, bit for bit.
   * - `agrees`: another version was at work; everything agrees, figures within their standard errors.
   * - `refused`: anything else.
   */
  readonly outcome: "bits" | "agrees" | "refused";
  /** Why it was refused, as sentences. */
  readonly reasons: readonly string[];
  /** What else a reader should know, as sentences. */
  readonly notes: readonly string[];
  readonly title: string | null;
  /** Digest of the study that was repeated; `null` if the record could not be opened. */
  readonly study: string | null;
  readonly figures: number;
  /** The first places at which it is not what its repetition gives; none where no repetition was held against it. */
  readonly differences: readonly Difference[];
  /** How the record was held against repetitions with other draws; `null` if it was not. */
  readonly agreement: Agreement | null;
}

export interface VerifyOptions extends RepeatOptions {
  /** A detached signature, and the key that must have made it. */
  readonly signature?: unknown;
  readonly publicKey?: string;
  /** Run the model that the record carries: it is code, and may do anything this process may. */
  readonly trustModel?: boolean;
  /** Repeat the study of a record whose results were altered too, to name the figures that differ. */
  readonly nameFigures?: boolean;
  /** Runs studies again, in place of `repeatStudy`: for many records of one study. */
  readonly repeat?: Repeat;
}

/** Versions up to 0.5.0 said of a temperature that it is one, and no difference, by saying nothing. No figure depends on it. */
const LEFT_OUT_BEFORE = /^measurands\.[^.]+\.difference$/;

/** Deviations that are named one by one. */
const NAMED = 5;

/** A record that is not what it says it is. Never leaves this file. */
class Refusal extends Error {
  readonly reasons: readonly string[];
  readonly differences: readonly Difference[];
  constructor(reasons: readonly string[], differences: readonly Difference[] = []) {
    super(reasons[0]);
    this.reasons = reasons;
    this.differences = differences;
  }
}

/** Checks a filed record, runs it again, and compares. Never throws for a bad record: that is an outcome. */
export async function verifyRecord(
  content: Uint8Array | string,
  name: string,
  options: VerifyOptions = {},
): Promise<Verification> {
  const notes: string[] = [];
  let opened: OpenedFile | null = null;
  const outcome = (kind: Verification["outcome"], rest: Partial<Verification> = {}): Verification => ({
    outcome: kind,
    reasons: [],
    notes,
    title: opened?.record.study.title ?? null,
    study: opened === null ? null : digestOf(opened.record.study),
    figures: opened === null ? 0 : countFigures(opened.record.measurands),
    differences: [],
    agreement: null,
    ...rest,
  });
  try {
    opened = openRecord(content, name);
    const attested = checkSignature(opened, options, notes);
    await checkSeal(opened, name, options);
    notes.push(ownWord(opened.record));
    return await repeatAndCompare(opened, attested, options, notes, outcome);
  } catch (error) {
    if (error instanceof Refusal) return outcome("refused", { reasons: error.reasons, differences: error.differences });
    const report = reportOf(error);
    if (report.code === "cancelled") throw error;
    const problems = report.problems.map(
      ({ place, value, accepted }) => `${place}: got ${value}; expected ${accepted}`,
    );
    return outcome("refused", { reasons: [report.message, ...problems] });
  }
}

/** @returns whether a key that the reader gave attests the record */
function checkSignature({ text }: OpenedFile, { signature, publicKey }: VerifyOptions, notes: string[]): boolean {
  if (signature === undefined) {
    if (publicKey !== undefined) throw new Refusal(["A key was given, and the record has no signature."]);
    notes.push("There is no signature beside the record: if one was made, it was removed.");
    return false;
  }
  if (!signatureHolds(text, signature, publicKey))
    throw new Refusal([
      "The signature is not one of this record by this key: the record, the signature or the key is another.",
    ]);
  const key = `the key with SHA-256 ${keyDigest(publicKey ?? (signature as { publicKey: string }).publicKey)}`;
  notes.push(
    publicKey === undefined
      ? `Signed by ${key}, which the signature itself brings: anyone can replace both. --key FILE states whose key it must be.`
      : `Signed by ${key}, as --key asks for.`,
  );
  return publicKey !== undefined;
}

async function checkSeal(opened: OpenedFile, name: string, options: VerifyOptions): Promise<void> {
  const { record, sealed, from, altered, text } = opened;
  if (from !== FORMAT) return;
  if (sealed === null) throw new Refusal([`${name} has no seal, so nothing shows what it was when it was filed.`]);
  const differences = async (): Promise<readonly Difference[]> =>
    options.nameFigures === true && altered.includes("results") && !altered.includes("study")
      ? await figuresThatDiffer(record, options)
      : [];
  if (altered.length > 0)
    throw new Refusal(
      altered.map((part) => `${BROKEN[part]}: its digest does not match.`),
      await differences(),
    );
  if (text !== recordText(record))
    throw new Refusal(["The file's bytes are not as Trialband wrote them, though it reads as a record."]);
}

/** What an altered record is not, beside a repetition of its study; nothing if that cannot be made. */
async function figuresThatDiffer(record: ReportedRecord, options: VerifyOptions): Promise<readonly Difference[]> {
  try {
    const { reference } = await studyOfRecord(record, options.trustModel ?? false);
    const again = await (options.repeat ?? repeatStudy)(record.study, reference, options);
    // Under another build every sentence may be worded otherwise: figures alone are named.
    const same = otherMakers(record, again, null).length === 0;
    return named(deviations(resultsOf(record), resultsOf(again)).filter(({ filed }) => same || /^-?[\d.]/.test(filed)));
  } catch (error) {
    if (reportOf(error).code === "cancelled") throw error;
    return [];
  }
}

const named = (deviating: ReturnType<typeof deviations>): readonly Difference[] =>
  deviating.slice(0, NAMED).map(({ place, filed, repeated }) => ({ place, filed, repeated }));

const BROKEN = {
  study: "The study is not the one the record was made from",
  results: "The results are not those the record was sealed with",
  record: "The record was altered after it was sealed",
} as const;

async function repeatAndCompare(
  { record: filed, from, lacking }: OpenedFile,
  attested: boolean,
  options: VerifyOptions,
  notes: string[],
  outcome: (kind: Verification["outcome"], rest?: Partial<Verification>) => Verification,
): Promise<Verification> {
  const { reference } = await studyOfRecord(filed, options.trustModel ?? false);
  const repeat = options.repeat ?? repeatStudy;
  const again = await repeat(filed.study, reference, options);
  const others = otherMakers(filed, again, from === FORMAT ? null : from);
  const different = deviations(resultsOf(filed), resultsOf(again));
  if (others.length === 0) {
    if (different.length === 0) return outcome("bits");
    const more = different.length > NAMED ? [`and ${different.length - NAMED} more figures differ`] : [];
    const first = named(different);
    throw new Refusal(
      [
        "The repetition does not give the record's figures:",
        ...first.map(({ place, filed: a, repeated: b }) => `${place} is ${a}, repeated ${b}`),
        ...more,
      ],
      first,
    );
  }
  notes.push(
    `Another version was at work by the record's own word: ${others.join("; ")}.`,
    attested
      ? "The signature by the given key attests it."
      : "Nothing attests that word: the record is not signed by a key given with --key.",
  );
  if (different.every(({ place }) => /^(engine\.version|format)$/.test(place))) {
    notes.push("Every figure is reproduced exactly all the same, bit for bit.");
    return outcome("agrees");
  }
  const [leaves, repeated] = [comparedLeaves(filed), comparedLeaves(again)];
  const agreement = agreementOf(leaves, {
    ...(await evidenceOf(filed, reference, options, repeat)),
    lacking: (place) =>
      lacking(place) || (LEFT_OUT_BEFORE.test(place) && !leaves.has(place) && repeated.get(place) === false),
  });
  // Words that a key's owner signed are theirs, in whichever version's wording.
  const worded = agreement.disagreements.filter(({ wording }) => wording && attested);
  const wrong = agreement.disagreements.filter((found) => !worded.includes(found));
  const inWords = (list: Agreement["disagreements"]): string[] => [
    ...list.slice(0, NAMED).map(({ place, filed: found, expected }) => `${place}: got ${found}; expected ${expected}`),
    ...(list.length > NAMED ? [`and ${list.length - NAMED} more places differ`] : []),
  ];
  if (wrong.length > 0)
    return outcome("refused", {
      reasons: ["The record does not agree with its repetitions:", ...inWords(wrong)],
      differences: wrong
        .slice(0, NAMED)
        .map(({ place, filed: found, expected }) => ({ place, filed: found, repeated: expected })),
      agreement,
    });
  if (worded.length > 0) notes.push("This version words it otherwise:", ...inWords(worded));
  notes.push(agreementWords(agreement));
  return outcome("agrees", { agreement });
}

function agreementWords({ same, madeAgain, scattered, limit }: Agreement): string {
  const farthest = scattered.reduce((most, { ratio }) => Math.max(most, Math.abs(ratio)), 0);
  return `${same} places are the same whatever the draws (numbers to 1e-9), ${madeAgain} follow from the record's own figures, and ${scattered.length} figures lie within their standard errors (at most ${farthest.toFixed(1)} of them, limit ${limit.toFixed(1)}).`;
}

function countFigures(value: unknown): number {
  if (typeof value === "number") return 1;
  if (typeof value !== "object" || value === null) return 0;
  return Object.values(value).reduce((sum: number, item) => sum + countFigures(item), 0);
}
