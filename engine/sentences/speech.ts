import type { Rounded } from "../record/figures.ts";
import { toDecimals } from "../record/rounding.ts";
import { printedChance, type Chance } from "../record/chance.ts";

/** The notation of figures and lists in one language. */
export interface Speech {
  /** A figure with its unit: `0.012 °C`. */
  figure(rounded: Rounded): string;
  /** A number at a decimal place. */
  fixed(value: number, decimals: number): string;
  /** A number with at most `digits` significant digits, without trailing zeros. */
  significant(value: number, digits: number): string;
  /** A whole number, in groups of three from five digits on. */
  whole(value: number): string;
  /** A share in per cent: whole, or with one decimal if small. */
  percent(share: number): string;
  /** A share in whole per cent. */
  wholePercent(share: number): string;
  /** A probability in per cent, as `printedChance` rounds it. */
  chance(chance: Chance): string;
  /** a; a and b; a, b and c. */
  list(parts: readonly string[]): string;
}

/** The conventions of a language for figures and lists. */
export interface SpeechCustoms {
  readonly decimalSign: "." | ",";
  readonly and: string;
  readonly lessThan: string;
  readonly moreThan: string;
}

const MINUS = "\u2212";
const RAISED = "⁰¹²³⁴⁵⁶⁷⁸⁹";
/** More decimal places than this are written by a power of ten. */
const MOST_DECIMALS = 7;

export function speechOf({ decimalSign, and, lessThan, moreThan }: SpeechCustoms): Speech {
  const typeset = (text: string): string => {
    const [mantissa, exponent] = text.split("e");
    const number = mantissa!.replace("-", MINUS).replace(".", decimalSign);
    return exponent === undefined ? number : `${number} × ${powerOfTen(Number(exponent))}`;
  };
  const fixed = (value: number, decimals: number): string => typeset(toDecimals(value, decimals));
  /** At a decimal place, by a power of ten if that is far behind the decimal sign. */
  const readable = (value: number, decimals: number): string => {
    if (decimals <= MOST_DECIMALS) return fixed(value, decimals);
    const shift = 3 * Math.floor(decimals / 3);
    return `${fixed(shifted(value, shift), decimals - shift)} × ${powerOfTen(-shift)}`;
  };
  const inPercent = (share: number, decimals: number): string => `${fixed(100 * share, decimals)} %`;
  return {
    fixed,
    whole: (value) => {
      const digits = toDecimals(value, 0);
      return digits.length < 5 ? digits : digits.replace(/\B(?=(\d{3})+$)/gu, "\u202f");
    },
    figure: ({ value, decimals, unit }) => `${readable(value, decimals)}${unitAfter(unit)}`,
    significant: (value, digits) => typeset(String(Number(value.toPrecision(digits)))),
    percent(share) {
      // An estimated share may lie below 0 by its error, which no share can.
      const shown = Math.max(0, share);
      return inPercent(shown, shown < 0.0005 || shown >= 0.0995 ? 0 : 1);
    },
    wholePercent: (share) => inPercent(share, 0),
    chance(of) {
      const { percent, decimals, bound } = printedChance(of);
      const words = bound === null ? "" : `${bound === "below" ? lessThan : moreThan} `;
      return `${words}${fixed(percent, decimals)} %`;
    },
    list: (parts) => (parts.length < 2 ? (parts[0] ?? "") : `${parts.slice(0, -1).join(", ")} ${and} ${parts.at(-1)!}`),
  };
}

/** A number times a power of ten, with the same decimal digits. */
function shifted(value: number, exponent: number): number {
  const [digits, own] = value.toExponential().split("e");
  return Number(`${digits}e${Number(own) + exponent}`);
}

/** A unit as it follows its number; dimension one has none. */
export const unitAfter = (unit: string): string => (unit === "1" ? "" : ` ${unit}`);

const powerOfTen = (exponent: number): string =>
  `10${exponent < 0 ? "⁻" : ""}${[...String(Math.abs(exponent))].map((digit) => RAISED[Number(digit)]).join("")}`;
