import { FORMAT } from "./schema.ts";

type Document = Readonly<Record<string, unknown>>;

/** Brings a record of one format to the next. */
type Step = (record: Document) => Document;

/**
 * Format 1 (0.1.0 before its release) had neither explanation, second order, joint results, conformity, sensitivity nor
 * evidence, and no digests: what it lacks is `null`, and its figures can still be compared with a repetition.
 */
const fromFormat1: Step = (record) => ({
  ...record,
  format: "trialband-record/2",
  study: {
    correlations: [],
    conformity: {},
    sensitivity: null,
    sweep: null,
    generator: "sfc32x4-philox",
    ...(record["study"] as object),
  },
  inputs: Object.fromEntries(
    Object.entries(record["inputs"] as Record<string, Document>).map(([name, input]) => [
      name,
      { evidence: null, ...input },
    ]),
  ),
  joint: null,
  sweep: null,
  measurands: Object.fromEntries(
    Object.entries(record["measurands"] as Record<string, Document>).map(([name, measurand]) => [
      name,
      {
        ...measurand,
        linear: { correlatedTerms: [], ...(measurand["linear"] as object) },
        validation: { firm: (measurand["validation"] as Document)["settled"], ...(measurand["validation"] as object) },
        secondOrder: null,
        explanation: null,
        conformity: null,
        sensitivity: null,
      },
    ]),
  ),
});

const STEPS: Readonly<Record<string, Step>> = { "trialband-record/1": fromFormat1 };

/**
 * A record in today's format, or `null` where its format is none of ours.
 *
 * @returns the record, and the format it was written in
 */
export function migrate(document: unknown): { readonly record: Document; readonly from: string } | null {
  let record = (typeof document === "object" && document !== null ? document : {}) as Document;
  const from = record["format"];
  if (typeof from !== "string") return null;
  for (let step = STEPS[from]; step !== undefined; step = STEPS[record["format"] as string]) record = step(record);
  return record["format"] === FORMAT ? { record, from } : null;
}
