import { distributionTitles, type DistributionName } from "../../../engine/distributions/titles.ts";
import { isFilled, readNumber } from "./typed.ts";

/** A cell of a row whose field depends on how the quantity is known. */
export interface HowCell {
  /** The study's field. */
  readonly field: string;
  /** As it stands in the empty cell: a, U, k. */
  readonly short: string;
  /** In words, for a label that is read aloud and for messages. */
  readonly words: string;
  /** Left out of what must be filled in. */
  readonly optional?: true;
}

/** A way in which a quantity is known: what the table asks for, and which distribution it means. */
export interface How {
  readonly id: string;
  /** In the list. First letters differ, so that a keyboard finds each by one or two of them. */
  readonly words: string;
  readonly kind: DistributionName;
  readonly value?: HowCell;
  readonly first?: HowCell;
  readonly second?: HowCell;
  readonly nu?: HowCell;
  /** The kind it is if degrees of freedom are given: a normal becomes a t (JCGM 101, 6.4.9). */
  readonly withNu?: DistributionName;
  /** Fields of the kind that this way of stating it does without. */
  readonly without?: readonly string[];
}

const estimate: HowCell = { field: "estimate", short: "value", words: "value" };
const halfWidth: HowCell = { field: "halfWidth", short: "± a", words: "half-width a" };
const lower: HowCell = { field: "lower", short: "from", words: "lower limit" };
const upper: HowCell = { field: "upper", short: "to", words: "upper limit" };
const u: HowCell = { field: "standardUncertainty", short: "u", words: "standard uncertainty u" };
const U: HowCell = { field: "expandedUncertainty", short: "U", words: "expanded uncertainty U" };
const nu: HowCell = { field: "degreesOfFreedom", short: "∞", words: "degrees of freedom ν", optional: true };
const values = (words: string): HowCell => ({ field: "values", short: "list", words });
const LIMITS = ["lower", "upper"] as const;

const about = (kind: DistributionName, words: string): How => ({
  id: kind,
  words,
  kind,
  value: estimate,
  first: halfWidth,
  nu,
  without: LIMITS,
});
const between = (kind: DistributionName, words: string): How => ({
  id: `${kind}-limits`,
  words,
  kind,
  first: lower,
  second: upper,
  nu,
  without: ["estimate", "halfWidth"],
});
const uncertain = (id: string, words: string, first: HowCell, second: HowCell | null, without: string[]): How => ({
  id,
  words,
  kind: "normal",
  value: estimate,
  first,
  ...(second === null ? {} : { second }),
  nu,
  withNu: "t",
  without,
});

/** What the trade uses most; the list shows these first. */
export const FIRST_HOWS: readonly How[] = [
  about("rectangular", "rectangular, ± a"),
  between("rectangular", "limits, from … to"),
  uncertain(
    "certificate",
    "certificate, U with k",
    U,
    { field: "coverageFactor", short: "k", words: "coverage factor k" },
    ["standardUncertainty", "coverageProbability"],
  ),
  uncertain("standard", "standard uncertainty u", u, null, [
    "expandedUncertainty",
    "coverageFactor",
    "coverageProbability",
  ]),
  { id: "readings", words: "indications, repeated", kind: "readings", first: values("indications") },
];

/** Every other way, by its distribution. */
export const FURTHER_HOWS: readonly How[] = [
  about("triangular", "triangular, ± a"),
  between("triangular", "triangular, from … to"),
  {
    id: "constant",
    words: "exact: a constant",
    kind: "constant",
    value: { field: "value", short: "value", words: "value" },
  },
  uncertain(
    "expanded-p",
    "U with coverage probability p",
    U,
    { field: "coverageProbability", short: "p", words: "coverage probability p" },
    ["standardUncertainty", "coverageFactor"],
  ),
  about("arcsine", "arc sine, ± a"),
  between("arcsine", "arc sine, from … to"),
  {
    ...about("trapezoidal", "trapezoidal, ± a"),
    second: { field: "topRatio", short: "β", words: "width of the top over that of the base" },
  },
  {
    ...between("trapezoidal", "trapezoidal, from … to"),
    without: ["estimate", "halfWidth"],
  },
  {
    ...about("curvilinear-trapezoid", "curvilinear trapezoid, ± a"),
    second: { field: "limitHalfWidth", short: "± d", words: "half-width to which the limits are known" },
  },
  between("curvilinear-trapezoid", "curvilinear trapezoid, from … to"),
  {
    id: "t",
    words: "Student's t: u and ν",
    kind: "t",
    value: estimate,
    first: u,
    nu: { field: "degreesOfFreedom", short: "ν", words: "degrees of freedom ν" },
    without: ["expandedUncertainty", "coverageFactor", "coverageProbability"],
  },
  {
    id: "asymmetric-rectangular",
    words: "off-centre rectangular",
    kind: "asymmetric-rectangular",
    value: estimate,
    first: lower,
    second: upper,
    nu,
  },
  {
    id: "asymmetric-triangular",
    words: "off-centre triangular",
    kind: "asymmetric-triangular",
    value: { field: "mode", short: "mode", words: "likeliest value" },
    first: lower,
    second: upper,
    nu,
  },
  {
    id: "truncated-normal",
    words: "normal, cut off at limits",
    kind: "truncated-normal",
    value: estimate,
    first: { ...u, optional: true },
  },
  {
    id: "log-normal",
    words: "log-normal",
    kind: "log-normal",
    value: { ...estimate, optional: true },
    first: { ...u, optional: true },
  },
  {
    id: "exponential",
    words: "exponential",
    kind: "exponential",
    value: estimate,
    first: { ...lower, optional: true },
  },
  {
    id: "gamma",
    words: "gamma",
    kind: "gamma",
    first: { field: "shape", short: "shape", words: "shape", optional: true },
    second: { field: "scale", short: "scale", words: "scale", optional: true },
  },
  {
    id: "beta",
    words: "beta",
    kind: "beta",
    value: { ...estimate, optional: true },
    first: { ...lower, optional: true },
    second: { ...upper, optional: true },
  },
  { id: "poisson", words: "Poisson: a count", kind: "poisson", value: estimate },
  {
    id: "discrete",
    words: "discrete values",
    kind: "discrete",
    first: values("values"),
    second: { field: "probabilities", short: "p list", words: "probabilities" },
  },
  { id: "sample", words: "data, resampled", kind: "sample", first: values("observed values") },
  {
    id: "tabulated-density",
    words: "tabulated density",
    kind: "tabulated-density",
    first: values("values"),
    second: { field: "densities", short: "list", words: "densities" },
  },
  {
    id: "tabulated-distribution",
    words: "tabulated distribution function",
    kind: "tabulated-distribution",
    first: values("values"),
    second: { field: "probabilities", short: "list", words: "probabilities" },
  },
  { id: "mixture", words: "mixture of several", kind: "mixture" },
];

export const HOWS: readonly How[] = [...FIRST_HOWS, ...FURTHER_HOWS];
const BY_ID = new Map(HOWS.map((how) => [how.id, how]));

/** The way of that id; `undefined` where none is chosen yet. */
export const howOf = (id: string): How | undefined => BY_ID.get(id);

/** The four cells of a row that depend on it, in the table's order. */
export const HOW_CELLS = ["value", "first", "second", "nu"] as const;
export type HowCellName = (typeof HOW_CELLS)[number];

/** The way in which a statement of a study was written. */
export function howOfStatement(distribution: string, fields: Readonly<Record<string, string>>): string {
  const has = (name: string): boolean => isFilled(fields[name]);
  if (distribution === "normal" || (distribution === "t" && has("degreesOfFreedom"))) {
    if (!has("expandedUncertainty")) return "standard";
    return has("coverageProbability") ? "expanded-p" : "certificate";
  }
  const limits = `${distribution}-limits`;
  if (BY_ID.has(limits) && (has("lower") || has("upper"))) return limits;
  return distribution;
}

/** Words met in spreadsheets, first match first. */
const WORDS: readonly (readonly [RegExp, string])[] = [
  [/\bk\s*=|expanded|erweitert|certificate|zertifikat|kalibrierschein/i, "certificate"],
  [/^(rect|recht|uniform|gleich|r$)/i, "rectangular"],
  [/^(limits|grenzen)/i, "rectangular-limits"],
  [/^(tri|drei|d$)/i, "triangular"],
  [/^(readings|indications|anzeigen|messreihe|wiederhol)/i, "readings"],
  [/^(arc|arkus|u-shape|u-förmig)/i, "arcsine"],
  [/^(const|exact|exakt|fest)/i, "constant"],
  [/^(normal|gau|standard|std|n$|u$|t$|student)/i, "standard"],
];

/** What the words of a pasted cell mean, with the k that they name; `null` if they mean nothing known. */
export function howFromWords(text: string): { readonly how: string; readonly k: string | null } | null {
  const plain = text.trim().toLowerCase();
  if (plain === "") return null;
  const exact = HOWS.find(({ words, id }) => words.toLowerCase() === plain || id === plain);
  if (exact !== undefined) return { how: exact.id, k: null };
  const title = Object.entries(distributionTitles).find(
    ([, { en, de }]) => en.toLowerCase() === plain || de.toLowerCase() === plain,
  );
  const found =
    title === undefined ? WORDS.find(([pattern]) => pattern.test(plain))?.[1] : howOfStatement(title[0], {});
  if (found === undefined) return null;
  const k = /k\s*=\s*([\d.,]+)/i.exec(plain)?.[1] ?? null;
  return { how: found, k: k !== null && readNumber(k) !== null ? k : null };
}
