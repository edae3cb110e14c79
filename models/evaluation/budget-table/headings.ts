import { columnLetter } from "../table/table.ts";
import type { BudgetField, Stated } from "./fields.ts";
import { isKnownUnit } from "./unit-scale.ts";
import { unitName } from "../text/unit-name.ts";
import { fieldIn, plain, statedIn } from "./vocabulary/index.ts";

/** A column and what its heading says. */
export interface HeadedColumn {
  /** Letter as a spreadsheet shows it. */
  readonly column: string;
  readonly index: number;
  readonly heading: string;
  /** Unit in the heading, if any. */
  readonly unit: string | null;
  /** `null`: not used. */
  readonly field: BudgetField | null;
  /** How figures of this column were stated, if the heading itself says so. */
  readonly implies: Stated | null;
  /** Coverage factor in the heading, as in `U (k = 2)`. */
  readonly factor: number | null;
}

interface HeadingParts {
  readonly name: string;
  readonly unit: string | null;
  readonly factor: number | null;
}

const MOST_LETTERS = 200;

/** A heading such as `U (k = 2) / mK` in its parts. */
export function headingParts(heading: string): HeadingParts {
  let name = heading.slice(0, MOST_LETTERS).replace(/\s+/g, " ").trim();
  let factor: number | null = null;
  const k = /[([,;]?\s*\bk\s*(?:=|≈)\s*(\d+(?:[.,]\d+)?)\s*[)\]]?/i.exec(name);
  if (k !== null) {
    factor = Number(k[1]!.replace(",", "."));
    name = `${name.slice(0, k.index)} ${name.slice(k.index + k[0].length)}`.replace(/\s+/g, " ").trim();
  }
  // A coverage probability is no unit of the figures.
  name = name
    .replace(/[([]?\s*(?:p\s*[=≈]\s*)?\d{2}(?:[.,]\d+)?\s?%\s*[)\]]?/i, " ")
    .replace(/\s+/g, " ")
    .trim();
  const unit = unitAtEnd(name);
  return unit === null ? { name, unit: null, factor } : { name: unit.before, unit: unitName(unit.unit), factor };
}

/** The unit that a heading ends with: `/ mK`, `[mK]`, `(mK)`, `in mK`, or bare where it can be nothing else. */
function unitAtEnd(name: string): { readonly before: string; readonly unit: string } | null {
  const square = /^(.*\S)\s*\[([^[\]]{1,30})\]$/.exec(name);
  if (square !== null) return { before: square[1]!.replace(/\s*\/$/, ""), unit: square[2]!.trim() };
  const round = /^(.*?\S)\s*\/?\s*\(([^()]{1,30})\)$/.exec(name);
  if (round !== null && isKnownUnit(round[2]!)) return { before: round[1]!, unit: round[2]! };
  for (const joint of [
    /^(.*?\S)\s*\/\s*(\S.*)$/,
    /^(.*\S)\s+(?:in|en)\s+(\S{1,12})$/i,
    /^(.*\S)\s+(\S{2,8}|[KVΩ%])$/,
  ]) {
    const parts = joint.exec(name);
    if (parts !== null && isKnownUnit(parts[2]!)) return { before: parts[1]!, unit: parts[2]! };
  }
  return null;
}

/** What a heading may stand for: the likeliest first. */
interface Meaning {
  readonly field: BudgetField;
  readonly stated: Stated | null;
}

/** Symbols of EA-4/02, 4.1 and of GUM, 4.1 and 4.3.7. Their case counts: u is a standard uncertainty, U an expanded one. */
const SYMBOLS: readonly (readonly [RegExp, BudgetField, Stated | null])[] = [
  [/^(?:\|?[cC](?:_?\{?[ijk]\}?)?\|?)(?:[·.*×x]| )*u(?:_?\{?[ijk]\}?|\(.*\))?$/u, "contribution", null],
  [/^u_?\{?[ijk]?\}?(?:[·.*×x]| )+\|?[cC](?:_?\{?[ijk]\}?)?\|?$/u, "contribution", null],
  [/^u_?\{?[ijk]?\}?\(y\)$|^u_?\{?y\}?$/u, "contribution", null],
  [/^U(?:_\{?\w{1,6}\}?|\d{2}|[xiyc])?(?:\(.*\))?$/u, "stated", "expanded"],
  [/^u(?:_?\{?[xijk]{0,2}\}?)?(?:\(x?[_{]*[ijk]?\}?\))?$|^s(?:\(.*\))?$/u, "standard", "standard"],
  [/^a(?:_?\{?[ijk±+]\}?)?$/u, "stated", "half-width"],
  [/^(?:±|\+\/-)$/u, "stated", null],
  [/^[cC](?:_?\{?[ijk]\}?)?$|^[∂d][fy]\s?\/\s?[∂d]x?/u, "sensitivity", null],
  [/^(?:[νvυ](?:_?\{?(?:[ijk]|eff)\}?)?|nu(?:_?\{?[ijk]\}?)?)$/u, "degreesOfFreedom", null],
  [/^k(?:_?\{?[ijkp]\}?)?$/u, "divisor", null],
  [/^n(?:_?\{?i\}?)?$/u, "readings", null],
  [/^X(?:_?\{?[ijk]\}?)?$/u, "quantity", null],
  [/^x(?:_?\{?[ijk]\}?)?$/u, "estimate", null],
  [/^%(?:\s.*)?$|^u_?i?[²2]\s?\/\s?u_?c?[²2]$/u, "share", null],
];

const symbolMeaning = (text: string): Meaning | null => {
  const bare = text.trim().normalize("NFKC");
  const found = SYMBOLS.find(([pattern]) => pattern.test(bare));
  return found === undefined ? null : { field: found[1], stated: found[2] };
};

/** A heading's words, and the symbol that follows them as in `Standard uncertainty u(x_i)`. */
function wordsAndSymbol(name: string): readonly [words: string, symbol: string] {
  const parts = /^(.*\S)\s+\(?(\S{1,12}?)\)?$/.exec(name.replace(/,\s*/g, " "));
  return parts !== null && symbolMeaning(parts[2]!) !== null ? [parts[1]!, parts[2]!] : [name, ""];
}

/** What a heading stands for, or `null`. */
export function meaningOfHeading(heading: string): Meaning | null {
  const { name, unit, factor } = headingParts(heading);
  const whole = symbolMeaning(name) ?? symbolMeaning(heading);
  if (whole !== null) return refined(whole, unit, factor);
  // "Uncertainty unit" is a column of units, whatever they are units of.
  if (fieldIn(name.split(" ").at(-1)!) === "unit") return { field: "unit", stated: null };
  const [words, symbol] = wordsAndSymbol(name);
  const named = fieldIn(words) ?? fieldIn(name);
  const ending = symbol === "" ? null : symbolMeaning(symbol);
  if (named === null) return ending === null ? null : refined(ending, unit, factor);
  // "Value ±" holds what stands behind the sign.
  if (named === "estimate" && (ending?.field === "stated" || ending?.field === "standard"))
    return refined(ending, unit, factor);
  if (named !== "stated" && named !== "standard") return refined({ field: named, stated: null }, unit, factor);
  // "Uncertainty u_i(y)" is a contribution, whatever its words are.
  if (named === "stated" && ending?.field === "contribution") return ending;
  const said = statedIn(words) ?? statedIn(heading);
  if (said === "deviation") return refined({ field: "stated", stated: said }, unit, factor);
  const stated = named === "standard" ? named : (said ?? ending?.stated ?? null);
  return refined({ field: stated === "standard" ? "standard" : "stated", stated }, unit, factor);
}

function refined({ field, stated }: Meaning, unit: string | null, factor: number | null): Meaning {
  if (field === "contribution" && unit === "%") return { field: "share", stated: null };
  if ((field === "stated" || field === "standard") && factor !== null)
    return factor === 1 ? { field: "standard", stated: "standard" } : { field: "stated", stated: "expanded" };
  return { field, stated };
}

/** Fields that several columns may hold: each unit belongs to a figure, and uncertainties are asked about. */
const REPEATED: ReadonlySet<BudgetField> = new Set<BudgetField>(["unit", "stated", "standard"]);

/**
 * Maps headings to fields; a field that one column alone can hold is not given twice.
 *
 * @param assigned fields given by the reader, by column letter
 */
export function mapHeadings(
  headings: readonly string[],
  assigned: Readonly<Record<string, BudgetField | null>> = {},
): readonly HeadedColumn[] {
  const taken = new Set<BudgetField>(Object.values(assigned).filter((field) => field !== null));
  const columns = headings.map((heading, index): HeadedColumn => {
    const column = columnLetter(index);
    const { unit, factor } = headingParts(heading);
    const meaning = heading.trim() === "" ? null : meaningOfHeading(heading);
    const base = { column, index, heading: heading.replace(/\s+/g, " ").trim(), unit, factor };
    if (Object.hasOwn(assigned, column)) return { ...base, field: assigned[column]!, implies: meaning?.stated ?? null };
    if (meaning === null) return { ...base, field: null, implies: null };
    let { field } = meaning;
    // A second u after a sensitivity coefficient is the product of both.
    if (field === "standard" && taken.has("standard") && taken.has("sensitivity") && !taken.has("contribution"))
      field = "contribution";
    if (taken.has(field) && !REPEATED.has(field)) return { ...base, field: null, implies: null };
    taken.add(field);
    return { ...base, field, implies: meaning.stated };
  });
  return withQuantity(columns, taken);
}

/** A column headed "Source" names the quantities if no other does. */
function withQuantity(columns: readonly HeadedColumn[], taken: ReadonlySet<BudgetField>): readonly HeadedColumn[] {
  if (taken.has("quantity") || !taken.has("source")) return columns;
  const source = columns.find(({ field }) => field === "source")!;
  const first = columns.find(({ field, heading }) => field !== null && field !== "symbol" && heading !== "");
  return first !== source ? columns : columns.map((one) => (one === source ? { ...one, field: "quantity" } : one));
}

/** Headings of one table, so that another table of the same shape is recognised. */
export const shapeOf = (headings: readonly string[]): string => headings.map(plain).join("|").replace(/\|+$/, "");
