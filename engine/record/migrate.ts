import { FORMAT } from "./format.ts";

type Document = Readonly<Record<string, unknown>>;

/** Brings a record of one format to the next. */
type Step = (record: Document) => Document;

const isObject = (value: unknown): value is Document =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** A part brought to the next format; one that is no object stays as it is, for the check that follows. */
const changed = (value: unknown, change: (part: Document) => Document): unknown =>
  isObject(value) ? change(value) : value;

/** Every entry of a part brought to the next format. */
const eachChanged = (value: unknown, change: (part: Document) => Document): unknown =>
  changed(value, (part) =>
    Object.fromEntries(Object.entries(part).map(([name, entry]) => [name, changed(entry, change)])),
  );

/**
 * Format 1 (0.1.0 before its release) had neither explanation, second order, joint results, conformity, sensitivity nor
 * evidence, and no digests: what it lacks is `null`, and its figures can still be compared with a repetition.
 */
const fromFormat1: Step = (record) => ({
  ...record,
  format: "trialband-record/2",
  study: changed(record["study"], (study) => ({
    correlations: [],
    conformity: {},
    sensitivity: null,
    sweep: null,
    generator: "sfc32x4-philox",
    ...study,
  })),
  inputs: eachChanged(record["inputs"], (input) => ({ evidence: null, ...input })),
  joint: null,
  sweep: null,
  measurands: eachChanged(record["measurands"], (measurand) => ({
    ...measurand,
    linear: changed(measurand["linear"], (linear) => ({ correlatedTerms: [], ...linear })),
    validation: changed(measurand["validation"], (validation) => ({ firm: validation["settled"], ...validation })),
    secondOrder: null,
    explanation: null,
    conformity: null,
    sensitivity: null,
  })),
});

/** By the format that a step begins from. A map: a format is text from outside, and may be called "constructor". */
const STEPS: ReadonlyMap<unknown, Step> = new Map([["trialband-record/1", fromFormat1]]);

/**
 * A document in today's format, not checked, or `null` if its format is none of Trialband's.
 *
 * @returns the document, and the format it was written in
 */
export function migrate(document: unknown): { readonly record: Document; readonly from: string } | null {
  if (!isObject(document) || typeof document["format"] !== "string") return null;
  let record = document;
  for (let step = STEPS.get(record["format"]); step !== undefined; step = STEPS.get(record["format"]))
    record = step(record);
  return record["format"] === FORMAT ? { record, from: document["format"] } : null;
}
