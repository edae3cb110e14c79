import { FORMAT, VERSION, type ReportedRecord, type RunRecord } from "../../engine/index.ts";
import { Fault, reportOf } from "../errors.ts";
import { placeModule } from "../shelves/bundle.ts";
import { loadModel, type ModelReference } from "../shelves/model.ts";
import { loadStudyDocument } from "../shelves/study.ts";
import { runStudy, type RunOptions } from "../runs/run-study.ts";
import { buildFacts } from "./build-facts.ts";
import { deviations, disagreements } from "./compare.ts";
import { openRecord } from "./open.ts";
import { digestOf, recordText, resultsOf, type SealedRecord } from "./seal.ts";
import { signatureHolds } from "./signature.ts";

/** The outcome of verifying one record. */
export interface Verification {
  /** `bits`: every figure repeated to the bit. `errors`: within standard errors, and `notes` say why not to the bit. */
  readonly outcome: "bits" | "errors" | "refused";
  /** Why it was refused, as sentences. */
  readonly reasons: readonly string[];
  /** What else a reader should know, as sentences. */
  readonly notes: readonly string[];
  readonly title: string | null;
  readonly figures: number;
}

export interface VerifyOptions extends Pick<RunOptions, "pool" | "signal" | "onProgress"> {
  /** A detached signature, and the key that must have made it. */
  readonly signature?: unknown;
  readonly publicKey?: string;
  /** Run the model that the record carries: it is code, and may do anything this process may. */
  readonly trustModel?: boolean;
}

/** Deviations that are named one by one. */
const NAMED = 5;

/** Checks a filed record, runs it again, and compares. Never throws for a bad record: that is an outcome. */
export async function verifyRecord(
  content: Uint8Array | string,
  name: string,
  options: VerifyOptions = {},
): Promise<Verification> {
  const notes: string[] = [];
  let title: string | null = null;
  const refused = (...reasons: string[]): Verification => ({ outcome: "refused", reasons, notes, title, figures: 0 });
  try {
    const { record, sealed, from, altered, text } = openRecord(content, name);
    title = record.study.title;
    if (options.signature !== undefined && !signatureHolds(text, options.signature, options.publicKey)) {
      return refused(
        "The signature is not one of this record by this key: the record, the signature or the key is another.",
      );
    }
    const older = from !== FORMAT;
    if (!older) {
      if (sealed === null) return refused(`${name} has no seal, so nothing shows what it was when it was filed.`);
      if (text !== recordText(record))
        return refused("The file's bytes are not as Trialband wrote them, though it reads as a record.");
      if (altered.length > 0) return refused(...altered.map((part) => `${BROKEN[part]}: its digest does not match.`));
    } else
      notes.push(`The record is of the older format ${from}, which had no digests: only its figures are compared.`);
    const reference = await referenceOf(record, options.trustModel ?? false);
    const { record: repeated } = await runStudy({ study: record.study, reference }, options);
    // Through its text, as the filed one came: JSON knows no −0.
    const again = JSON.parse(recordText(repeated)) as SealedRecord;
    return compare(record, again, older, notes, title);
  } catch (error) {
    const report = reportOf(error);
    if (report.code === "cancelled") throw error;
    return refused(
      report.message,
      ...report.problems.map(({ place, value, accepted }) => `${place}: got ${value}; expected ${accepted}`),
    );
  }
}

const BROKEN = {
  study: "The study is not the one the record was made from",
  results: "The results are not those the record was sealed with",
  record: "The record was altered after it was sealed",
} as const;

async function referenceOf({ study, provenance }: ReportedRecord, trustModel: boolean): Promise<ModelReference> {
  const source = provenance?.modelSource ?? null;
  if (source === null) return (await loadStudyDocument(study, null)).reference;
  if (!trustModel) {
    throw new Fault(
      "model-does-not-load",
      "The record carries a model of its author's own, which is code: read it (provenance.modelSource), and allow it with --trust-model.",
    );
  }
  const placed = await placeModule(source);
  if (placed.digest !== provenance!.modelDigest)
    throw new Fault("bad-input", "The model's source in the record does not match its digest.");
  const reference: ModelReference = { kind: "module", parameters: study.parameters ?? {}, ...placed };
  await loadModel(reference);
  return reference;
}

function compare(
  filed: ReportedRecord,
  again: SealedRecord,
  older: boolean,
  notes: string[],
  title: string | null,
): Verification {
  const figures = countFigures(filed.measurands);
  const found = older ? olderDeviations(filed, again) : deviations(resultsOf(filed), resultsOf(again));
  const same = found.length === 0 && (older || digestOf(resultsOf(again)) === filed.seal!.results);
  if (same) {
    if (!older && filed.provenance!.engineDigest !== again.provenance.engineDigest)
      notes.push("Another build of Trialband gave the same bits.");
    return { outcome: "bits", reasons: [], notes, title, figures };
  }
  const excuse = excuseFor(filed, again, older);
  const list = found.slice(0, NAMED).map(({ place, filed: a, repeated: b }) => `${place} is ${a}, repeated ${b}`);
  if (found.length > NAMED) list.push(`and ${found.length - NAMED} more figures differ`);
  if (excuse === null)
    return {
      outcome: "refused",
      reasons: ["The repetition does not give the record's figures:", ...list],
      notes,
      title,
      figures,
    };
  const apart = disagreements(filed, again);
  if (apart.length > 0)
    return {
      outcome: "refused",
      reasons: ["The repetition does not agree within standard errors:", ...apart],
      notes: [...notes, excuse],
      title,
      figures,
    };
  return { outcome: "errors", reasons: [], notes: [...notes, excuse], title, figures };
}

/** Why bits may rightly differ, or `null` where they may not. */
function excuseFor(filed: ReportedRecord, again: SealedRecord, older: boolean): string | null {
  if (filed.engine.version !== VERSION) {
    return `The record was made by Trialband ${filed.engine.version}, this is ${VERSION}: bits may differ, and figures were compared within their standard errors.`;
  }
  if (!older && filed.provenance!.engineDigest !== buildFacts.engineDigest) {
    return "The record was made by another build of the same version: figures were compared within their standard errors.";
  }
  if (!filed.model.fixedBits && filed.environment?.runtime !== again.environment?.runtime) {
    return `The model uses functions whose bits JavaScript engines do not share, and the record was made on ${filed.environment?.runtime ?? "another"}: figures were compared within their standard errors.`;
  }
  return older
    ? "Formats before 2 were written by unreleased builds: figures were compared within their standard errors."
    : null;
}

/** Only what the older record has. */
function olderDeviations(filed: ReportedRecord, again: SealedRecord): ReturnType<typeof deviations> {
  const figuresOf = ({ measurands }: RunRecord): unknown =>
    Object.fromEntries(
      Object.entries(measurands).map(([name, { linear, monteCarlo }]) => [
        name,
        { linear: { ...linear, correlatedTerms: [] }, monteCarlo },
      ]),
    );
  return deviations(figuresOf(filed), figuresOf(again));
}

function countFigures(value: unknown): number {
  if (typeof value === "number") return 1;
  if (typeof value !== "object" || value === null) return 0;
  return Object.values(value).reduce((sum: number, item) => sum + countFigures(item), 0);
}
