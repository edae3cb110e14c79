import type * as z from "zod";
import { show, type Problem, type ReportedRecord } from "../../engine/index.ts";
import { Fault } from "../errors.ts";
import { migrate } from "./migrate.ts";
import { recordSchema } from "./schema.ts";
import { digestOf, sealOf, type SealedRecord } from "./seal.ts";
import { conformityFields, sensitivityFields } from "./optional-parts.ts";

export type { ReportedRecord };

/** Problems told at once; a file of another kind has hundreds. */
const MOST_PROBLEMS = 8;

const reportable = recordSchema.partial({ environment: true, provenance: true, seal: true });

/**
 * A parsed file as a record, brought to today's format.
 *
 * @param name how the file is called in the fault
 * @throws {Fault} `bad-input` with every place that cannot be used (the first few), what is there and what is accepted;
 *   also where the seal says that the record was altered
 */
export function readRecord(document: unknown, name: string): ReportedRecord {
  const migrated = migratedOf(document);
  if (migrated === null) {
    const format = (document as { format?: unknown } | null)?.format;
    return refused(name, [
      { place: "format", value: show(format), accepted: 'the format of a record, such as "trialband-record/2"' },
    ]);
  }
  const parsed = reportable.safeParse(migrated);
  if (!parsed.success)
    return refused(
      name,
      parsed.error.issues.map((issue) => problemOf(issue, migrated, "")),
    );
  const record = migrated as unknown as ReportedRecord;
  const problems = [...optionalProblems(record), ...crossProblems(record)];
  if (problems.length > 0) return refused(name, problems);
  if (isSealed(record)) {
    const seal = sealOf(record);
    const broken = (["study", "results", "record"] as const).filter((part) => record.seal[part] !== seal[part]);
    if (broken.length > 0) {
      throw new Fault(
        "bad-input",
        `${name} was altered after it was sealed, so no report is made of it.`,
        broken.map((part) => ({
          place: `seal.${part}`,
          value: show(record.seal[part]),
          accepted: `the digest of what stands in the file, ${seal[part]}`,
        })),
      );
    }
  }
  return record;
}

/** The digest of a record: as it was sealed, or of what stands in it. */
export function recordDigest(record: ReportedRecord): string {
  const { seal, ...unsealed } = record;
  return seal?.record ?? digestOf(unsealed);
}

const isSealed = (record: ReportedRecord): record is SealedRecord =>
  record.seal !== undefined && record.provenance !== undefined;

/** `migrate` builds on fields that a damaged file may lack. */
function migratedOf(document: unknown): Readonly<Record<string, unknown>> | null {
  try {
    return migrate(document)?.record ?? null;
  } catch (error) {
    if (error instanceof TypeError) return null;
    throw error;
  }
}

function refused(name: string, problems: readonly Problem[]): never {
  const more = problems.length > MOST_PROBLEMS ? ` The first ${MOST_PROBLEMS} of ${problems.length}:` : "";
  throw new Fault(
    "bad-input",
    `${name} is not a record that can be reported; trialband run --out writes one.${more}`,
    problems.slice(0, MOST_PROBLEMS),
  );
}

function optionalProblems({ measurands }: ReportedRecord): Problem[] {
  return Object.entries(measurands).flatMap(([name, measurand]) =>
    (
      [
        ["sensitivity", sensitivityFields],
        ["conformity", conformityFields],
      ] as const
    ).flatMap(([part, schema]) => {
      const value = measurand[part];
      const parsed = value === null ? undefined : schema.safeParse(value);
      return (parsed?.error?.issues ?? []).map((issue) => problemOf(issue, value, `measurands.${name}.${part}.`));
    }),
  );
}

/** Names that point at nothing, and meshes of the wrong size. */
function crossProblems(record: ReportedRecord): Problem[] {
  const problems: Problem[] = [];
  const known = (place: string, name: string, among: Readonly<Record<string, unknown>>): void => {
    if (!Object.hasOwn(among, name))
      problems.push({ place, value: show(name), accepted: `one of ${Object.keys(among).slice(0, 20).join(", ")}` });
  };
  if (Object.keys(record.measurands).length === 0)
    problems.push({ place: "measurands", value: "{}", accepted: "at least one measurand" });
  for (const name of Object.keys(record.inputs)) known(`inputs.${name}`, name, record.study.inputs);
  for (const [name, { linear, secondOrder, explanation }] of Object.entries(record.measurands)) {
    const lists: readonly (readonly [string, readonly string[]])[] = [
      ["linear.contributions", linear.contributions.map(({ input }) => input)],
      ["linear.correlatedTerms", linear.correlatedTerms.flatMap(({ between }) => between)],
      ["secondOrder.terms", secondOrder?.terms.flatMap(({ between }) => between) ?? []],
      ["explanation.parts", Object.values(explanation?.parts ?? {}).flatMap(({ inputs }) => inputs)],
    ];
    for (const [place, inputs] of lists)
      inputs.forEach((input) => known(`measurands.${name}.${place}`, input, record.inputs));
  }
  if (record.joint === null) return problems;
  const { measurands, linear, monteCarlo, pairs } = record.joint;
  const m = measurands.length;
  measurands.forEach((name) => known("joint.measurands", name, record.measurands));
  pairs.forEach(({ between, grid }, i) => {
    between.forEach((name) => known(`joint.pairs.${i}.between`, name, record.measurands));
    const wanted = grid.cells * grid.cells;
    if (grid.counts.length !== wanted)
      problems.push({
        place: `joint.pairs.${i}.grid.counts`,
        value: `${grid.counts.length} counts`,
        accepted: `${wanted} counts`,
      });
  });
  for (const [place, rows] of [
    ["linear.covariance", linear.covariance],
    ["linear.correlation", linear.correlation],
    ["monteCarlo.correlation", monteCarlo?.correlation],
  ] as const) {
    if (rows?.length !== m && rows !== undefined)
      problems.push({ place: `joint.${place}`, value: `${rows.length} rows`, accepted: `${m} rows of ${m} numbers` });
    else if (rows?.some((row) => row.length !== m))
      problems.push({
        place: `joint.${place}`,
        value: "rows of unequal length",
        accepted: `${m} rows of ${m} numbers`,
      });
  }
  return problems;
}

const TYPES: Readonly<Record<string, string>> = {
  string: "a text",
  number: "a finite number",
  int: "a whole number",
  boolean: "true or false",
  object: "an object with fields of its own",
  record: "an object with fields of its own",
  array: "a list",
  tuple: "a list of two",
};

function problemOf(issue: z.core.$ZodIssue, document: unknown, before: string): Problem {
  const value = issue.path.reduce(
    (at: unknown, key) => (at as Record<PropertyKey, unknown> | null | undefined)?.[key],
    document,
  );
  return { place: `${before}${issue.path.map(String).join(".")}`, value: show(value), accepted: acceptedBy(issue) };
}

function acceptedBy(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case "invalid_type":
      return TYPES[issue.expected] ?? `a value of type ${issue.expected}`;
    case "invalid_value":
      return issue.values.map(show).join(" or ");
    case "too_small":
      return bounded(issue.origin, issue.inclusive === false ? "more than" : "at least", issue.minimum);
    case "too_big":
      return bounded(issue.origin, issue.inclusive === false ? "less than" : "at most", issue.maximum);
    case "unrecognized_keys":
      return `nothing called ${issue.keys.map(show).join(", ")} here`;
    case "invalid_union": {
      const each = [...new Set(issue.errors.flat().map(acceptedBy))];
      return each.length === 0 ? issue.message : each.join(", or ");
    }
    default:
      return issue.message;
  }
}

const bounded = (origin: string, relation: string, bound: number | bigint): string =>
  origin === "array" || origin === "tuple"
    ? `a list of ${relation} ${bound} items`
    : origin === "string"
      ? `a text of ${relation} ${bound} characters`
      : `a number ${relation} ${bound}`;
