import type { InputRecord, RunRecord, Study } from "../../../engine/index.ts";

/** Distributions a reader may put in place of the stated one, each with the input's estimate and standard uncertainty. */
export const KINDS = ["stated", "normal", "rectangular", "triangular", "arcsine", "t"] as const;
export type Kind = (typeof KINDS)[number];
export const isKind = (name: string | undefined): name is Kind => KINDS.some((kind) => kind === name);

/** Greatest factor of a width. */
export const MOST_WIDTH = 1000;

/** Half-width over standard deviation (JCGM 101, 6.4.2.4, 6.4.5.4, 6.4.6.4). */
export const HALF_WIDTHS = { rectangular: Math.sqrt(3), triangular: Math.sqrt(6), arcsine: Math.SQRT2 } as const;

/** What the reader changes of one input. */
export interface InputChange {
  readonly kind: Kind;
  /** Factor of the stated width, 0 for an input that is exactly known. */
  readonly width: number;
}

/** What the reader changes of a study. */
export interface StudyChange {
  readonly inputs: Readonly<Record<string, InputChange>>;
  /** Correlation coefficients by the two inputs, joined by a colon. */
  readonly correlations: Readonly<Record<string, number>>;
}

export const isEmpty = ({ inputs, correlations }: StudyChange): boolean =>
  Object.keys(inputs).length + Object.keys(correlations).length === 0;

/** A change as the address keeps it: `input:kind:width`, with spaces between; and `a:b:coefficient`. */
export const changeText = ({
  inputs,
  correlations,
}: StudyChange): { readonly tries: string | null; readonly pairs: string | null } => ({
  tries: textOrNull(
    Object.entries(inputs).map(([name, { kind, width }]) => `${name}:${kind}:${Number(width.toPrecision(10))}`),
  ),
  pairs: textOrNull(Object.entries(correlations).map(([pair, r]) => `${pair}:${r}`)),
});
const textOrNull = (parts: readonly string[]): string | null => (parts.length === 0 ? null : parts.join(" "));

/** Reads a change back; what does not name inputs of the record, or goes beyond what is on offer, is left out. */
export function readChange(
  tries: string | undefined,
  pairs: string | undefined,
  { inputs, study }: RunRecord,
): StudyChange {
  const known = (name: string | undefined): name is string => name !== undefined && Object.hasOwn(inputs, name);
  const changes: Record<string, InputChange> = {};
  for (const part of (tries ?? "").split(" ")) {
    const [name, kind, text] = part.split(":");
    const width = text === undefined || text === "" ? Number.NaN : Number(text);
    if (
      known(name) &&
      isKind(kind) &&
      width >= 0 &&
      width <= MOST_WIDTH &&
      !(kind === "stated" && width === 1) &&
      (kind !== "stated" || width === 0 || hasWidth(study.inputs[name]!))
    )
      changes[name] = { kind, width };
  }
  const correlations: Record<string, number> = {};
  for (const part of (pairs ?? "").split(" ")) {
    const [a, b, r] = part.split(":");
    if (known(a) && known(b) && a !== b && r !== undefined && Math.abs(Number(r)) <= 1)
      correlations[`${a}:${b}`] = Number(r);
  }
  return { inputs: changes, correlations };
}

type Statement = Study["inputs"][string];
type Fields = Readonly<Record<string, unknown>>;

/**
 * A stated input with another width, or `null` if its kind has no single width (a table, a mixture, a bound).
 * Readings move apart about their mean; limits about their middle.
 */
export function widened(statement: Fields, factor: number): Fields | null {
  const times = (...names: readonly string[]): Fields | null => {
    const found = names.filter((name) => typeof statement[name] === "number");
    return found.length === 0
      ? null
      : { ...statement, ...Object.fromEntries(found.map((name) => [name, (statement[name] as number) * factor])) };
  };
  switch (statement.distribution) {
    case "normal":
    case "t":
      return times("standardUncertainty", "expandedUncertainty");
    case "rectangular":
    case "triangular":
    case "arcsine": {
      const { lower, upper } = statement;
      if (typeof lower !== "number" || typeof upper !== "number") return times("halfWidth");
      const [middle, half] = [lower / 2 + upper / 2, (upper / 2 - lower / 2) * factor];
      return { ...statement, lower: middle - half, upper: middle + half };
    }
    case "readings": {
      const values = statement.values as readonly number[];
      const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
      const { pooledStandardDeviation: pooled } = statement;
      return {
        ...statement,
        values: values.map((value) => mean + (value - mean) * factor),
        ...(typeof pooled === "number" ? { pooledStandardDeviation: pooled * factor } : {}),
      };
    }
    default:
      return null;
  }
}

/** Whether an input's width can be changed while it keeps its kind. */
export const hasWidth = (statement: Fields): boolean => widened(statement, 2) !== null;

/** The statement that a change makes of an input. */
export function changedStatement(
  statement: Fields,
  { estimate, standardUncertainty }: InputRecord,
  { kind, width }: InputChange,
): Fields {
  const source = statement.source === undefined ? {} : { source: statement.source };
  if (width === 0) return { distribution: "constant", value: estimate, ...source };
  if (kind === "stated") return widened(statement, width) ?? statement;
  const u = standardUncertainty * width;
  switch (kind) {
    case "normal":
      return { distribution: "normal", estimate, standardUncertainty: u, ...source };
    case "t":
      return { distribution: "t", estimate, standardUncertainty: u, degreesOfFreedom: 5, ...source };
    default:
      return { distribution: kind, estimate, halfWidth: HALF_WIDTHS[kind] * u, ...source };
  }
}

/** The study with a change made: a document to preview, or to run in full. */
export function changedStudy({ study, inputs: records }: RunRecord, change: StudyChange): Study {
  const inputs = Object.fromEntries(
    Object.entries(study.inputs).map(([name, statement]) => {
      const own = change.inputs[name];
      return [name, own === undefined ? statement : (changedStatement(statement, records[name]!, own) as Statement)];
    }),
  );
  const constant = (name: string): boolean => inputs[name]!.distribution === "constant";
  const isOf = (pair: string, between: readonly string[]): boolean =>
    pair.split(":").every((name) => between.includes(name));
  const stated = study.correlations.filter(
    ({ between }) => !Object.keys(change.correlations).some((pair) => isOf(pair, between)),
  );
  const made = Object.entries(change.correlations)
    .filter(([, coefficient]) => coefficient !== 0)
    .map(([pair, coefficient]) => ({
      between: pair.split(":") as [string, string],
      coefficient,
      refersTo: "values" as const,
    }));
  // An input that is exactly known has nothing to be correlated with.
  const correlations = [...stated, ...made].filter(({ between }) => !between.some(constant));
  return { ...study, inputs, correlations };
}
