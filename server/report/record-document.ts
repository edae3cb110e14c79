import * as z from "zod";
import { show, type MeasurandRecord, type Problem, type RunRecord } from "../../engine/index.ts";
import { Fault } from "../errors.ts";
import { conformitySchema, sensitivitySchema, type ReportedConformity, type ReportedSensitivity } from "./optional-parts.ts";
import { figure, names, pairOf, positive, text, whole } from "./record-fields.ts";

/** A record as the report takes it: what a run of this version writes, and the parts that only some records have. */
export interface ReportedMeasurand extends MeasurandRecord {
  readonly sensitivity?: ReportedSensitivity | null;
  readonly conformity?: ReportedConformity | null;
}
export type ReportedRecord = Omit<RunRecord, "measurands"> & { readonly measurands: Readonly<Record<string, ReportedMeasurand>> };

const FORMAT: RunRecord["format"] = "trialband-record/1";
/** Problems told at once; a file of another kind has hundreds. */
const MOST_PROBLEMS = 8;

const points = z.array(z.tuple([figure, figure]));
const evaluation = z.enum(["A", "B"]);
const digits = z.union([z.literal(1), z.literal(2)]);
const quantity = { symbol: text, meaning: z.string(), unit: z.string() };
const matrix = z.array(z.array(figure));
const orNull = <S extends z.ZodType>(schema: S): z.ZodNullable<S> => schema.nullable();
const four = <S extends z.ZodType>(schema: S) => z.looseObject({ estimate: schema, standardUncertainty: schema, low: schema, high: schema });

const input = z.looseObject({
  ...quantity,
  distribution: z.string(),
  source: orNull(z.string()),
  estimate: figure,
  standardUncertainty: figure,
  degreesOfFreedom: orNull(figure),
  evaluation,
  mean: orNull(figure),
  standardDeviation: orNull(figure),
  curve: points,
});

const linear = z.looseObject({
  estimate: figure,
  standardUncertainty: figure,
  coverageFactor: figure,
  effectiveDegreesOfFreedom: orNull(figure),
  expandedUncertainty: figure,
  interval: pairOf(figure),
  contributions: z.array(
    z.looseObject({
      input: text,
      estimate: figure,
      standardUncertainty: figure,
      degreesOfFreedom: orNull(figure),
      evaluation,
      sensitivityCoefficient: figure,
      contribution: figure,
      share: figure,
    }),
  ),
  correlatedTerms: z.array(z.looseObject({ between: pairOf(text), coefficient: figure, term: figure, share: figure })),
  curve: points,
});

const monteCarlo = z.looseObject({
  estimate: orNull(figure),
  standardUncertainty: orNull(figure),
  trials: whole,
  probability: figure,
  intervals: z.looseObject({ symmetric: pairOf(figure), shortest: pairOf(figure) }),
  skewness: orNull(figure),
  excessKurtosis: orNull(figure),
  least: figure,
  greatest: figure,
  standardErrors: z.looseObject({
    estimate: orNull(figure),
    standardUncertainty: orNull(figure),
    symmetric: pairOf(figure),
    shortest: orNull(pairOf(figure)),
  }),
  histogram: z.looseObject({ low: figure, width: figure, counts: z.array(whole), below: whole, above: whole }),
  settling: z.looseObject({
    points: z.array(z.looseObject({ trials: whole, averages: four(orNull(figure)), doubled: four(orNull(figure)) })),
    limit: figure,
    settled: z.boolean(),
    doubled: four(orNull(figure)),
  }),
});

const validation = z.looseObject({
  significantDigits: digits,
  numericalTolerance: figure,
  dLow: figure,
  dHigh: figure,
  validated: z.boolean(),
  settled: z.boolean(),
  firm: z.boolean(),
  atDigits: z.array(z.looseObject({ significantDigits: digits, numericalTolerance: figure, validated: z.boolean() })),
  coverageFactorNeeded: orNull(figure),
  sentence: z.string(),
});

const secondOrder = z.looseObject({
  bias: figure,
  standardUncertainty: figure,
  terms: z.array(z.looseObject({ between: pairOf(text), term: figure })),
  interval: pairOf(figure),
  dLow: figure,
  dHigh: figure,
  validated: z.boolean(),
});

const part = z.looseObject({ shapley: pairOf(figure), alone: pairOf(figure), share: figure, inputs: z.array(text) });
const explanation = z.looseObject({
  trials: whole,
  difference: pairOf(figure),
  parts: z.looseObject({ curvature: part, shape: part, degreesOfFreedom: part }),
  interplay: pairOf(figure),
  remainder: pairOf(figure),
  sentence: z.string(),
  recommendation: z.looseObject({ action: z.string(), factor: orNull(figure), inputs: z.array(text), sentence: z.string() }),
});

const factors = orNull(z.looseObject({ factor: figure, normalFactor: figure }));
const joint = z.looseObject({
  measurands: z.array(text).min(2),
  linear: z.looseObject({ covariance: matrix, correlation: matrix }),
  monteCarlo: orNull(z.looseObject({ covariance: matrix, correlation: matrix, greatestEigenvalue: figure })),
  probability: figure,
  ellipsoid: factors,
  rectangle: factors,
  pairs: z.array(
    z.looseObject({
      between: pairOf(text),
      ellipseFactor: orNull(figure),
      grid: z.looseObject({
        low: pairOf(figure),
        width: pairOf(figure),
        cells: positive,
        counts: z.array(whole),
        outside: whole,
        least: figure,
        area: figure,
        held: figure,
      }),
      scatter: points,
    }),
  ),
});

/** All that the report reads of a record. Fields beyond these are let through. */
const recordSchema = z.looseObject({
  format: z.literal(FORMAT),
  engine: z.looseObject({ name: z.string(), version: z.string() }),
  study: z.looseObject({
    title: text,
    laboratory: z.string().optional(),
    notes: z.string().optional(),
    model: text,
    inputs: z.record(z.string(), z.looseObject({ distribution: text })),
    coverage: z.looseObject({ probability: figure.optional(), factor: figure.optional() }),
    significantDigits: digits,
    trials: z.union([whole, z.literal("adaptive")]),
    seed: z.string(),
  }),
  model: z.looseObject({ id: text, title: z.string(), equation: orNull(z.string()), source: orNull(z.string()), fixedBits: z.boolean() }),
  coverage: z.looseObject({ custom: z.enum(["probability", "factor"]), probability: figure, interval: z.enum(["symmetric", "shortest"]) }),
  generator: z.looseObject({ id: text, title: z.string(), seed: z.string() }),
  trials: z.looseObject({ count: whole, batch: whole, stop: z.enum(["fixed", "settled", "limit"]) }),
  inputs: z.record(z.string(), input),
  measurands: z.record(
    z.string(),
    z.looseObject({
      ...quantity,
      linear,
      monteCarlo,
      validation,
      secondOrder: orNull(secondOrder),
      explanation: orNull(explanation),
      sensitivity: orNull(sensitivitySchema).optional(),
      conformity: orNull(conformitySchema).optional(),
    }),
  ),
  joint: orNull(joint),
  remarks: z.array(z.string()),
  cautions: z.array(z.string()),
  environment: z.looseObject({ startedAt: z.string(), seconds: figure, workers: whole, runtime: z.string() }).optional(),
});

/**
 * A parsed file as a record, or a fault with every place that cannot be used (the first few), what is there and what is
 * accepted.
 *
 * @param name how the file is called in the fault
 * @throws {Fault} `bad-input`
 */
export function readRecord(document: unknown, name: string): ReportedRecord {
  const parsed = recordSchema.safeParse(document);
  const problems = parsed.success ? crossProblems(parsed.data) : parsed.error.issues.flatMap((issue) => problemsOf(issue, document));
  if (problems.length === 0) return document as ReportedRecord;
  const more = problems.length > MOST_PROBLEMS ? ` The first ${MOST_PROBLEMS} of ${problems.length}:` : "";
  throw new Fault("bad-input", `${name} is not a record that can be reported; trialband run --out writes one.${more}`, problems.slice(0, MOST_PROBLEMS));
}

/** Names that point at nothing, and matrices of the wrong size. */
function crossProblems(record: z.output<typeof recordSchema>): Problem[] {
  const problems: Problem[] = [];
  const known = (place: string, name: string, among: Readonly<Record<string, unknown>>): void => {
    if (!Object.hasOwn(among, name)) problems.push({ place, value: show(name), accepted: `one of ${names(among)}` });
  };
  if (Object.keys(record.measurands).length === 0) problems.push({ place: "measurands", value: "{}", accepted: "at least one measurand" });
  for (const name of Object.keys(record.inputs)) known(`study.inputs.${name}`, name, record.study.inputs);
  for (const [name, measurand] of Object.entries(record.measurands)) {
    const at = `measurands.${name}`;
    measurand.linear.contributions.forEach((line, i) => known(`${at}.linear.contributions.${i}.input`, line.input, record.inputs));
    measurand.linear.correlatedTerms.forEach(({ between }, i) => between.forEach((input) => known(`${at}.linear.correlatedTerms.${i}`, input, record.inputs)));
    measurand.secondOrder?.terms.forEach(({ between }, i) => between.forEach((input) => known(`${at}.secondOrder.terms.${i}`, input, record.inputs)));
    for (const [cause, { inputs }] of Object.entries(measurand.explanation?.parts ?? {}) as [string, { inputs: string[] }][]) {
      inputs.forEach((input) => known(`${at}.explanation.parts.${cause}.inputs`, input, record.inputs));
    }
  }
  if (record.joint !== null) {
    const { measurands, linear: budget, monteCarlo: trials, pairs } = record.joint;
    measurands.forEach((name, i) => known(`joint.measurands.${i}`, name, record.measurands));
    pairs.forEach(({ between, grid }, i) => {
      between.forEach((name) => known(`joint.pairs.${i}.between`, name, record.measurands));
      const wanted = grid.cells * grid.cells;
      if (grid.counts.length !== wanted) problems.push({ place: `joint.pairs.${i}.grid.counts`, value: `${grid.counts.length} counts`, accepted: `${wanted} counts` });
    });
    for (const [place, rows] of [["joint.linear.covariance", budget.covariance], ["joint.linear.correlation", budget.correlation], ["joint.monteCarlo.correlation", trials?.correlation ?? null]] as const) {
      const m = measurands.length;
      if (rows !== null && (rows.length !== m || rows.some((row) => row.length !== m))) problems.push({ place, value: `${rows.length} rows`, accepted: `${m} rows of ${m} numbers` });
    }
  }
  return problems;
}

const TYPES: Readonly<Record<string, string>> = {
  string: "a text",
  number: "a finite number",
  int: "a whole number",
  boolean: "true or false",
  object: "an object with the fields of a record",
  record: "an object with the fields of a record",
  array: "a list",
  tuple: "a list of two",
};

function problemsOf(issue: z.core.$ZodIssue, document: unknown): Problem[] {
  const place = issue.path.map(String).join(".");
  let value: unknown = document;
  for (const key of issue.path) value = (value as Record<PropertyKey, unknown> | null | undefined)?.[key];
  const accepted = (): string => {
    switch (issue.code) {
      case "invalid_type":
        return TYPES[issue.expected] ?? `a value of type ${issue.expected}`;
      case "invalid_value":
        return issue.values.map(show).join(" or ");
      case "invalid_union":
        return issue.errors.flat().flatMap((inner) => (inner.code === "invalid_value" ? inner.values.map(show) : inner.code === "invalid_type" ? [TYPES[inner.expected] ?? inner.expected] : [])).join(" or ");
      default:
        return issue.message;
    }
  };
  return [{ place: place === "" ? "the file" : place, value: show(value), accepted: accepted() }];
}
