import type { DecimalMark } from "../text/decimal.ts";
import { isKnownUnit } from "./unit-scale.ts";
import { unitName } from "../text/unit-name.ts";

/** A figure as a cell has it. */
export interface Figure {
  readonly value: number;
  /** Unit in the cell itself. */
  readonly unit: string | null;
  /** Coverage factor in the cell itself, as in `2,5 mK (k = 2)`. */
  readonly factor: number | null;
  /** The cell says that it is a part of the reading: `0,01 % of reading`. */
  readonly ofReading?: true;
}

/** How makers' specifications say that a percentage is one of the reading (common practice), by language. */
const OF_READING =
  /^(%|‰|ppm)\s*(?:(?:of|vom?|v\.|de la|della|del|de l')\s*)?(?:(?:the )?(?:reading|rdg\.?|value|estimate)|m\.?\s?w\.?|messwert(?:es)?|lecture|lettura|lectura|valeur lue|valor)$/iu;

const RAISED: Readonly<Record<string, string>> = {
  "⁰": "0",
  "¹": "1",
  "²": "2",
  "³": "3",
  "⁴": "4",
  "⁵": "5",
  "⁶": "6",
  "⁷": "7",
  "⁸": "8",
  "⁹": "9",
  "⁻": "-",
};

/** One kind of space and of minus; what a spreadsheet or a person puts before a figure goes. */
export const tidied = (text: string): string =>
  text
    .replace(/[\u00a0\u2007\u2009\u202f]/g, " ")
    .replaceAll("−", "-")
    .trim()
    .replace(/^(?:=|±|\+\s*\/\s*-|\+-|≤)\s*/, "");

/** Longest cell that is read as a figure: expressions below stay quick. */
const LONGEST = 80;
const CORE =
  /^([+-]?)\s*(\d[\d.,' ]*|[.,]\d+)(?:e([+-]?\d{1,4})|\s*[x×·*]\s*10\s*(?:\^|\*\*)?\s*\(?([+-]?\d{1,3}|[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]{1,4})\)?)?\s*(.*)$/iu;

interface Core {
  readonly digits: string;
  readonly exponent: number;
  readonly rest: string;
}

function coreOf(text: string): Core | null {
  if (text.length > LONGEST) return null;
  const parts = CORE.exec(tidied(text));
  if (parts === null) return null;
  const exponent = parts[3] ?? [...(parts[4] ?? "0")].map((sign) => RAISED[sign] ?? sign).join("");
  return { digits: `${parts[1]!}${parts[2]!.trim()}`, exponent: Number(exponent), rest: parts[5]!.trim() };
}

/**
 * What a written figure says of the decimal sign: the sign, `either` for one that may part thousands as well (1,234),
 * `null` for none or no figure.
 */
export function markIn(text: string): DecimalMark | "either" | null {
  const core = coreOf(text);
  if (core === null || (core.rest !== "" && unitIn(core.rest) === null && !OF_READING.test(core.rest))) return null;
  const marks = core.digits.replace(/[^.,]/g, "");
  if (marks === "") return null;
  const last = marks.at(-1) as DecimalMark;
  const other: DecimalMark = last === "." ? "," : ".";
  if (marks.includes(other)) return marks.indexOf(last) === marks.length - 1 ? last : null;
  if (marks.length > 1) return other;
  return /^[+-]?[1-9]\d{0,2}[.,]\d{3}$/.test(core.digits) && core.exponent === 0 ? "either" : last;
}

/** Digits in groups of three, or in one. */
const GROUPED: Readonly<Record<DecimalMark, RegExp>> = {
  ".": /^[+-]?(?:\d+|\d{1,3}(?:[' ]\d{3})+|\d{1,3}(?:,\d{3}){2,}|\d{1,3}(?:,\d{3})+(?=\.))?(?:\.\d*)?$/,
  ",": /^[+-]?(?:\d+|\d{1,3}(?:[' ]\d{3})+|\d{1,3}(?:\.\d{3}){2,}|\d{1,3}(?:\.\d{3})+(?=,))?(?:,\d*)?$/,
};

/**
 * Reads a figure with the table's decimal sign; ± before it, a unit and a coverage factor after it are allowed. Thousands
 * may be parted by spaces or apostrophes, by points or commas only where nothing else can be meant.
 *
 * @returns `null` for anything else
 */
export function readFigure(text: string, decimal: DecimalMark): Figure | null {
  const core = coreOf(text);
  if (core === null || !GROUPED[decimal].test(core.digits)) return null;
  const whole = core.digits.replace(decimal === "." ? /[,' ]/g : /[.' ]/g, "").replace(",", ".");
  const value = Number(`${whole}e${core.exponent}`);
  if (!Number.isFinite(value)) return null;
  const stated = /[(,;]?\s*\bk\s*=\s*(\d+(?:[.,]\d+)?)[^)]*\)?$/i.exec(core.rest);
  const factor = stated === null ? null : Number(stated[1]!.replace(",", "."));
  const rest = stated === null ? core.rest : core.rest.slice(0, stated.index).trim();
  const part = OF_READING.exec(rest);
  if (part !== null) return { value, unit: part[1]!.toLowerCase(), factor, ofReading: true };
  if (rest === "") return { value, unit: null, factor };
  const unit = unitIn(rest);
  return unit === null ? null : { value, unit, factor };
}

/** The unit that stands after a figure, with or without brackets about it. */
export function unitIn(text: string): string | null {
  const bare = text
    .trim()
    .replace(/^[([](.*)[)\]]$/, "$1")
    .trim()
    .replace(/\s*([·*/])\s*/g, "$1");
  if (!/^\S+(?: [Cc])?$/.test(bare) || !/[\p{L}°%‰℃]/u.test(bare)) return null;
  return isKnownUnit(bare) ? unitName(bare) : null;
}

/** A root that a cell writes out: √3, 2√3, sqrt(3), 3^0.5, √3 = 1,732; also as a spreadsheet of another language has it. */
export function rootIn(text: string): number | null {
  const bare = tidied(text)
    .replace(/\s*(?:=|≈|~)\s*[\d.,]+\s*$/, "")
    .replace(/\s+/g, "");
  const root = /^(?:(\d{1,2})[·*]?)?(?:√|sqrt|sqr|wurzel|racine|raiz|raíz|radq|radice)\(?(\d{1,3})\)?$/i.exec(bare);
  if (root !== null) return Number(root[1] ?? 1) * Math.sqrt(Number(root[2]));
  const power = /^(\d{1,3})(?:\^|\*\*)\(?(?:0[.,]5|1\/2)\)?$/.exec(bare) ?? /^(\d{1,3})[½]$/.exec(bare);
  if (power !== null) return Math.sqrt(Number(power[1]));
  const inverse = /^1\/(.+)$/.exec(bare);
  const under = inverse === null ? null : rootIn(inverse[1]!);
  return under === null ? null : 1 / under;
}
