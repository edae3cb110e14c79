import { decimalsFor, toDecimals } from "../../engine/internal.ts";
import { powerOfTen } from "../../viewer/present/numbers.ts";
import type { Finding, Value } from "../../viewer/api/selfcheck.ts";

/** Standard errors that a figure of a run may lie away from the truth. */
export const STANDARD_ERRORS = 5;
/** Chance that a right normal figure lies further away. */
export const FALSE_ALARM = "6·10⁻⁷";
/** What the tolerance of a figure with a standard error rests on. */
export const FIVE_ERRORS = `${STANDARD_ERRORS} standard errors of the run`;

export interface Where {
  readonly unit?: string;
  /** The figure's own source, if it is not that of the whole check. */
  readonly source?: string;
}

/** A number, or several, within a limit of the published ones. What does not exist is never within it. */
export function near(
  what: string,
  published: number | readonly number[],
  obtained: Obtained,
  limit: number,
  basis: string,
  where: Where = {},
): Finding {
  const [wanted, found] = [listOf(published), listOf(obtained)];
  const passed = wanted.length === found.length && found.every((value, i) => Math.abs(value - wanted[i]!) <= limit);
  const digits = (value: number): string => figureText(value, limit);
  return finding(what, published, obtained, { limit, basis }, passed, where, {
    published: wanted.map(digits).join(", "),
    obtained: found.map(digits).join(", "),
    tolerance: `± ${sizeText(limit)}`,
  });
}

type Obtained = number | null | readonly (number | null)[];

const listOf = (value: Obtained): number[] =>
  (typeof value === "object" && value !== null ? value : [value as number | null]).map((item) => item ?? Number.NaN);

/**
 * A number, or several, as a document prints them ("2.00"): the obtained ones may lie half of the last digit away, and
 * `more` for the reason in `because`.
 */
export function printed(
  what: string,
  published: string | readonly string[],
  obtained: Obtained,
  more = 0,
  because = "",
  where: Where = {},
): Finding {
  const texts = typeof published === "string" ? [published] : published;
  const half = Math.max(...texts.map(halfDigit));
  // Slightly more, for binary sums of decimal figures.
  const limit = half * (1 + 1e-9) + more;
  const basis = because === "" ? "half a printed digit" : `half a printed digit and ${because}`;
  const numbers = texts.map(Number);
  const line = near(what, typeof published === "string" ? numbers[0]! : numbers, obtained, limit, basis, where);
  return { ...line, shown: { ...line.shown, published: texts.map(minus).join(", ") } };
}

/** Half of the last digit of a printed number: 0.005 for "2.00". */
function halfDigit(text: string): number {
  const [mantissa, exponent = "0"] = text.toLowerCase().split("e");
  const decimals = mantissa!.split(".")[1]?.length ?? 0;
  return 0.5 * Number(`1e${Number(exponent) - decimals}`);
}

/** Words, bits or a count that must be the same. */
export function same(
  what: string,
  published: string | number,
  obtained: string | number,
  basis = "the same",
  where: Where = {},
): Finding {
  return finding(what, published, obtained, { limit: null, basis }, Object.is(published, obtained), where, {
    published: wordText(published),
    obtained: wordText(obtained),
    tolerance: "none",
  });
}

/** A digest by its beginning; the whole of it stands in the report's data. */
const wordText = (value: string | number): string =>
  /^[0-9a-f]{64}$/.test(String(value)) ? `${String(value).slice(0, 16)}…` : String(value);

/** A number that must lie within bounds about the published one. */
export function between(
  what: string,
  published: number,
  obtained: number,
  [low, high]: readonly [number, number],
  basis: string,
  where: Where = {},
): Finding {
  return finding(what, published, obtained, { limit: null, basis }, obtained >= low && obtained <= high, where, {
    published: plain(published),
    obtained: plain(obtained),
    tolerance: [low, high].map((end) => plain(Number(end.toPrecision(9)))).join(" to "),
  });
}

/** Spread of a difference from a figure that a document took from a run of its own. */
export const withTheirs = (ours: number, theirs: number): number =>
  STANDARD_ERRORS * Math.sqrt(ours * ours + theirs * theirs);

function finding(
  what: string,
  published: Value,
  obtained: Obtained | string,
  tolerance: Finding["tolerance"],
  passed: boolean,
  { unit = "", source }: Where,
  shown: Finding["shown"],
): Finding {
  return { what, source: source ?? null, published, obtained: asValue(obtained), unit, tolerance, passed, shown };
}

/** JSON has no NaN: what does not exist is named in words. */
function asValue(obtained: Obtained | string): Value {
  if (typeof obtained === "string") return obtained;
  const numbers = listOf(obtained);
  if (numbers.some((value) => !Number.isFinite(value))) return numbers.map(plain).join(", ");
  return typeof obtained === "number" ? obtained : numbers;
}

/** A figure with a digit more than its tolerance has. */
function figureText(value: number, limit: number): string {
  if (!Number.isFinite(value)) return plain(value);
  if (limit === 0) return plain(value);
  const decimals = Math.max(0, decimalsFor(limit, 2));
  if (decimals > 16) return plain(value);
  if (value !== 0 && Math.abs(value) < 1e-4 && decimals > 9) return scientific(value);
  return minus(toDecimals(value, decimals));
}

function scientific(value: number): string {
  const [mantissa, exponent] = value.toExponential(3).split("e");
  return `${minus(mantissa!)}·${powerOfTen(Number(exponent))}`;
}

/** A limit with three digits. */
function sizeText(limit: number): string {
  if (limit === 0 || (limit >= 1e-6 && limit < 1e6))
    return limit === 0
      ? "0"
      : toDecimals(limit, Math.max(0, decimalsFor(limit, 3)))
          .replace(/(\.\d*?)0+$/, "$1")
          .replace(/\.$/, "");
  const [mantissa, exponent] = limit.toExponential(1).split("e");
  return `${Number(mantissa)}·${powerOfTen(Number(exponent))}`;
}

const plain = (value: number): string => (Number.isFinite(value) ? minus(String(value)) : "none");
const minus = (text: string): string => text.replace(/^-/, "\u2212");
