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
  /** Another estimate, or another value of a constant, in the input's own unit. */
  readonly estimate?: number;
  /** Other degrees of freedom; `Infinity` for none stated. */
  readonly freedom?: number;
}

/** Whether nothing of an input is changed. */
export const isAsStated = ({ kind, width, estimate, freedom }: InputChange): boolean =>
  kind === "stated" && width === 1 && estimate === undefined && freedom === undefined;

/** What the reader changes of a study. */
export interface StudyChange {
  readonly inputs: Readonly<Record<string, InputChange>>;
  /** Correlation coefficients by the two inputs, joined by a colon. */
  readonly correlations: Readonly<Record<string, number>>;
}

export const isEmpty = ({ inputs, correlations }: StudyChange): boolean =>
  Object.keys(inputs).length + Object.keys(correlations).length === 0;

/**
 * A change as the address keeps it: `input:kind:width`, followed by `:estimate` and `:ν` where these are changed (an empty
 * one is as stated), with spaces between; and `a:b:coefficient`.
 */
export const changeText = ({
  inputs,
  correlations,
}: StudyChange): { readonly tries: string | null; readonly pairs: string | null } => ({
  tries: textOrNull(
    Object.entries(inputs).map(([name, { kind, width, estimate, freedom }]) =>
      [name, kind, Number(width.toPrecision(10)), estimate ?? "", freedom ?? ""].join(":").replace(/:+$/, ""),
    ),
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
    const [name, kind, widthText, estimateText, freedomText] = part.split(":");
    if (!known(name) || !isKind(kind)) continue;
    const numberIn = (text: string | undefined): number =>
      text === undefined || text === "" ? Number.NaN : Number(text);
    const [width, estimate, freedom] = [widthText, estimateText, freedomText].map(numberIn) as [number, number, number];
    const change: InputChange = {
      kind,
      width,
      ...(Number.isFinite(estimate) && canMove(study.inputs[name]!, kind, inputs[name]!) ? { estimate } : {}),
      ...(freedom >= FEWEST_FREEDOM && takesFreedom(study.inputs[name]!, kind, freedom) ? { freedom } : {}),
    };
    if (
      width >= 0 &&
      width <= MOST_WIDTH &&
      (kind !== "stated" || width === 0 || width === 1 || hasWidth(study.inputs[name]!)) &&
      !isAsStated(change)
    )
      changes[name] = change;
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

/** Fewest degrees of freedom of a t distribution that the program takes. */
export const FEWEST_FREEDOM = 0.5;
/** Degrees of freedom of a t that takes the place of another distribution, until others are typed. */
export const USUAL_FREEDOM = 5;

/** Kinds whose limits may be doubtful, so that the linear budget takes degrees of freedom (JCGM 100, G.4.2). */
const DOUBTED = new Set<unknown>([
  "rectangular",
  "triangular",
  "arcsine",
  "trapezoidal",
  "curvilinear-trapezoid",
  "asymmetric-rectangular",
  "asymmetric-triangular",
]);

/** The degrees of freedom that a statement has, infinite if none are stated; `null` if its kind states none. */
export function statedFreedom(statement: Fields, kind: Kind): number | null {
  if (kind !== "stated") return kind === "t" ? USUAL_FREEDOM : DOUBTED.has(kind) ? Infinity : null;
  const { distribution, degreesOfFreedom, pooledDegreesOfFreedom } = statement;
  if (distribution === "readings") return typeof pooledDegreesOfFreedom === "number" ? pooledDegreesOfFreedom : null;
  if (typeof degreesOfFreedom === "number") return degreesOfFreedom;
  return DOUBTED.has(distribution) ? Infinity : null;
}

/** Whether a statement may have these degrees of freedom: a t has finite ones, limits none if they are not doubted. */
export const takesFreedom = (statement: Fields, kind: Kind, freedom: number): boolean =>
  statedFreedom(statement, kind) !== null &&
  (freedom !== Infinity || DOUBTED.has(kind === "stated" ? statement.distribution : kind));

function withFreedom(statement: Fields, freedom: number): Fields {
  const field = statement.distribution === "readings" ? "pooledDegreesOfFreedom" : "degreesOfFreedom";
  if (freedom !== Infinity) return { ...statement, [field]: freedom };
  const { [field]: _, ...rest } = statement;
  return rest;
}

/** A stated input whose estimate lies elsewhere by so much, or `null` if its kind states no place that can be moved. */
function moved(statement: Fields, by: number): Fields | null {
  const plus = (...names: readonly string[]): Fields | null => {
    const found = names.filter((name) => typeof statement[name] === "number");
    return found.length === 0
      ? null
      : { ...statement, ...Object.fromEntries(found.map((name) => [name, (statement[name] as number) + by])) };
  };
  switch (statement.distribution) {
    case "readings":
      return { ...statement, values: (statement.values as readonly number[]).map((value) => value + by) };
    case "normal":
    case "t":
    case "rectangular":
    case "triangular":
    case "arcsine":
    case "trapezoidal":
    case "curvilinear-trapezoid":
    case "asymmetric-rectangular":
    case "asymmetric-triangular":
      return plus("estimate", "lower", "mode", "upper");
    default:
      return null;
  }
}

/** Whether an input can be given another estimate while it keeps its kind, or as another one. */
export const canMove = (statement: Fields, kind: Kind, { unit }: Pick<InputRecord, "unit">): boolean =>
  kind !== "stated" ||
  statement.distribution === "constant" ||
  (ownUnit(statement, unit) ? isBuilt(statement.distribution) : moved(statement, 0) !== null);

/** Whether the figures of a statement are in a unit of its own. */
export const ownUnit = ({ unit }: Fields, inputUnit: string): boolean => typeof unit === "string" && unit !== inputUnit;

/** Kinds that an estimate and a standard uncertainty determine, given ν for t. */
const isBuilt = (kind: unknown): kind is Exclude<Kind, "stated"> => kind !== "stated" && isKind(kind as string);

/** The statement that a change makes of an input. */
export function changedStatement(
  statement: Fields,
  record: InputRecord,
  { kind, width, estimate = record.estimate, freedom }: InputChange,
): Fields {
  const source = statement.source === undefined ? {} : { source: statement.source };
  if (width === 0 || (kind === "stated" && statement.distribution === "constant"))
    return { distribution: "constant", value: estimate, ...source };
  const by = estimate - record.estimate;
  if (kind === "stated") {
    const wide = width === 1 ? statement : (widened(statement, width) ?? statement);
    // An estimate in the input's unit does not fit among figures in another: the statement is made again in it.
    const there =
      by === 0
        ? wide
        : !ownUnit(statement, record.unit)
          ? placed(moved(wide, by) ?? wide, estimate)
          : isBuilt(statement.distribution)
            ? built(statement.distribution, estimate, record.standardUncertainty * width, {
                freedom: freedom ?? statedFreedom(statement, "stated"),
                source,
              })
            : wide;
    return freedom === undefined ? there : withFreedom(there, freedom);
  }
  return built(kind, estimate, record.standardUncertainty * width, {
    freedom: freedom ?? statedFreedom({}, kind),
    source,
  });
}

/** With its estimate exactly as typed, not as a sum that comes near it. */
const placed = (statement: Fields, estimate: number): Fields =>
  typeof statement.estimate === "number" ? { ...statement, estimate } : statement;

function built(
  kind: Exclude<Kind, "stated">,
  estimate: number,
  u: number,
  { freedom, source }: { readonly freedom: number | null; readonly source: Fields },
): Fields {
  const degrees = freedom === null || freedom === Infinity ? {} : { degreesOfFreedom: freedom };
  switch (kind) {
    case "normal":
      return { distribution: "normal", estimate, standardUncertainty: u, ...source };
    case "t":
      return { distribution: "t", estimate, standardUncertainty: u, ...degrees, ...source };
    default:
      return { distribution: kind, estimate, halfWidth: HALF_WIDTHS[kind] * u, ...degrees, ...source };
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
