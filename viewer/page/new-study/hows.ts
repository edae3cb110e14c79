import { words as pageWords } from "../language.ts";
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

const estimate: HowCell = {
  field: "estimate",
  short: pageWords.hows.short.value,
  words: pageWords.hows.cells.value,
};
const halfWidth: HowCell = { field: "halfWidth", short: "± a", words: pageWords.hows.cells.halfWidth };
const lower: HowCell = {
  field: "lower",
  short: pageWords.hows.short.from,
  words: pageWords.hows.cells.lower,
};
const upper: HowCell = {
  field: "upper",
  short: pageWords.hows.short.to,
  words: pageWords.hows.cells.upper,
};
const u: HowCell = { field: "standardUncertainty", short: "u", words: pageWords.hows.cells.u };
const U: HowCell = { field: "expandedUncertainty", short: "U", words: pageWords.hows.cells.U };
const nu: HowCell = { field: "degreesOfFreedom", short: "∞", words: pageWords.hows.cells.nu, optional: true };
const values = (words: string): HowCell => ({ field: "values", short: pageWords.hows.short.list, words });
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
  about("rectangular", pageWords.hows.hows.rectangular),
  between("rectangular", pageWords.hows.hows.limits),
  uncertain(
    "certificate",
    pageWords.hows.hows.certificate,
    U,
    { field: "coverageFactor", short: "k", words: pageWords.hows.cells.k },
    ["standardUncertainty", "coverageProbability"],
  ),
  uncertain("standard", pageWords.hows.cells.u, u, null, [
    "expandedUncertainty",
    "coverageFactor",
    "coverageProbability",
  ]),
  {
    id: "readings",
    words: pageWords.hows.hows.readings,
    kind: "readings",
    first: values(pageWords.hows.cells.indications),
  },
];

/** Every other way, by its distribution. */
export const FURTHER_HOWS: readonly How[] = [
  about("triangular", pageWords.hows.hows.triangular),
  between("triangular", pageWords.hows.hows.triangularLimits),
  {
    id: "constant",
    words: pageWords.hows.hows.constant,
    kind: "constant",
    value: { field: "value", short: pageWords.hows.short.value, words: pageWords.hows.cells.value },
  },
  uncertain(
    "expanded-p",
    pageWords.hows.hows.expanded,
    U,
    { field: "coverageProbability", short: "p", words: pageWords.hows.cells.p },
    ["standardUncertainty", "coverageFactor"],
  ),
  about("arcsine", pageWords.hows.hows.arcsine),
  between("arcsine", pageWords.hows.hows.arcsineLimits),
  {
    ...about("trapezoidal", pageWords.hows.hows.trapezoidal),
    second: { field: "topRatio", short: "β", words: pageWords.hows.cells.topRatio },
  },
  {
    ...between("trapezoidal", pageWords.hows.hows.trapezoidalLimits),
    without: ["estimate", "halfWidth"],
  },
  {
    ...about("curvilinear-trapezoid", pageWords.hows.hows.curvilinear),
    second: { field: "limitHalfWidth", short: "± d", words: pageWords.hows.cells.limitHalfWidth },
  },
  between("curvilinear-trapezoid", pageWords.hows.hows.curvilinearLimits),
  {
    id: "t",
    words: pageWords.hows.hows.t,
    kind: "t",
    value: estimate,
    first: u,
    nu: { field: "degreesOfFreedom", short: "ν", words: pageWords.hows.cells.nu },
    without: ["expandedUncertainty", "coverageFactor", "coverageProbability"],
  },
  {
    id: "asymmetric-rectangular",
    words: pageWords.hows.hows.offRectangular,
    kind: "asymmetric-rectangular",
    value: estimate,
    first: lower,
    second: upper,
    nu,
  },
  {
    id: "asymmetric-triangular",
    words: pageWords.hows.hows.offTriangular,
    kind: "asymmetric-triangular",
    value: { field: "mode", short: pageWords.hows.short.mode, words: pageWords.hows.cells.mode },
    first: lower,
    second: upper,
    nu,
  },
  {
    id: "truncated-normal",
    words: pageWords.hows.hows.truncated,
    kind: "truncated-normal",
    value: estimate,
    first: { ...u, optional: true },
  },
  {
    id: "log-normal",
    words: pageWords.hows.hows.logNormal,
    kind: "log-normal",
    value: { ...estimate, optional: true },
    first: { ...u, optional: true },
  },
  {
    id: "exponential",
    words: pageWords.hows.hows.exponential,
    kind: "exponential",
    value: estimate,
    first: { ...lower, optional: true },
  },
  {
    id: "gamma",
    words: pageWords.hows.hows.gamma,
    kind: "gamma",
    first: {
      field: "shape",
      short: pageWords.hows.short.shape,
      words: pageWords.hows.cells.shape,
      optional: true,
    },
    second: {
      field: "scale",
      short: pageWords.hows.short.scale,
      words: pageWords.hows.cells.scale,
      optional: true,
    },
  },
  {
    id: "beta",
    words: pageWords.hows.hows.beta,
    kind: "beta",
    value: { ...estimate, optional: true },
    first: { ...lower, optional: true },
    second: { ...upper, optional: true },
  },
  { id: "poisson", words: pageWords.hows.hows.poisson, kind: "poisson", value: estimate },
  {
    id: "discrete",
    words: pageWords.hows.hows.discrete,
    kind: "discrete",
    first: values(pageWords.hows.cells.values),
    second: {
      field: "probabilities",
      short: pageWords.hows.short.pList,
      words: pageWords.hows.cells.probabilities,
    },
  },
  {
    id: "sample",
    words: pageWords.hows.hows.sample,
    kind: "sample",
    first: values(pageWords.hows.cells.observed),
  },
  {
    id: "tabulated-density",
    words: pageWords.hows.hows.density,
    kind: "tabulated-density",
    first: values(pageWords.hows.cells.values),
    second: { field: "densities", short: pageWords.hows.short.list, words: pageWords.hows.cells.densities },
  },
  {
    id: "tabulated-distribution",
    words: pageWords.hows.hows.distribution,
    kind: "tabulated-distribution",
    first: values(pageWords.hows.cells.values),
    second: {
      field: "probabilities",
      short: pageWords.hows.short.list,
      words: pageWords.hows.cells.probabilities,
    },
  },
  { id: "mixture", words: pageWords.hows.hows.mixture, kind: "mixture" },
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
