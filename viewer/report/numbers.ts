import { decimalsFor, toDecimals } from "../../engine/index.ts";

const MINUS = "\u2212";
const THIN = "\u202f";
const JOIN = "\u00a0";
const RAISED = "⁰¹²³⁴⁵⁶⁷⁸⁹";

/** Degrees of freedom past which their number says nothing. */
const MANY_DEGREES = 100_000;

/** A number taken apart for a table: its figures, which line up on the decimal sign, and the power of ten after them. */
export interface Entry {
  readonly figures: string;
  readonly power: string;
}

/** Numbers as one language prints them: a true minus, thin spaces in long numbers, trailing zeros kept. */
export interface Numbers {
  readonly decimalSign: string;
  /** At a decimal place; negative for places before the sign. */
  fixed(value: number, decimals: number): string;
  whole(value: number): string;
  /** To significant digits, by a power of ten where it is very large or very small. */
  significant(value: number, digits: number): string;
  /** The same for a column. */
  entry(value: number, digits: number): Entry;
  /** With the digits it was written with. */
  plain(value: number): string;
  percent(share: number, decimals?: number): string;
  /** A coverage probability with the digits it has: 95 %, 95.45 %. */
  probability(probability: number): string;
  /** Degrees of freedom; `null` is infinite. */
  freedom(degrees: number | null): string;
  interval(ends: readonly [string, string]): string;
  list(texts: readonly string[]): string;
}

/**
 * @param decimalSign "." or ","
 * @param separator between the numbers of an interval or a list
 */
export function numbersWith(decimalSign: string, separator: string): Numbers {
  const typeset = (text: string): string => {
    const negative = text.startsWith("-");
    const [before, after] = (negative ? text.slice(1) : text).split(".");
    const grouped = before!.length > 4 ? before!.replace(/\B(?=(\d{3})+$)/g, THIN) : before!;
    return `${negative ? MINUS : ""}${grouped}${after === undefined ? "" : decimalSign + after}`;
  };
  const fixed = (value: number, decimals: number): string => typeset(toDecimals(value, Math.min(100, decimals)));
  const scientific = (value: number, decimals: number): Entry => {
    const [mantissa, exponent] = value.toExponential(Math.max(0, Math.min(20, decimals))).split("e");
    return { figures: typeset(mantissa!), power: powerOfTen(Number(exponent)) };
  };
  const entry = (value: number, digits: number): Entry => {
    const decimals = decimalsFor(value, digits);
    if (value === 0) return { figures: "0", power: "" };
    if (decimals > 7 || decimals < digits - 7) return scientific(value, digits - 1);
    return { figures: fixed(value, Math.max(0, decimals)), power: "" };
  };
  const whole = (value: number): string => fixed(value, 0);
  return {
    decimalSign,
    fixed,
    whole,
    entry,
    significant: (value, digits) => together(entry(value, digits)),
    plain(value) {
      const text = String(value);
      if (!text.includes("e")) return typeset(text);
      return together(scientific(value, (text.split("e")[0]!.split(".")[1] ?? "").length));
    },
    percent(share, decimals = 1) {
      const [value, least] = [100 * share, Number(`1e-${decimals}`)];
      if (Math.abs(value) > 0 && Math.abs(value) < least / 2) return `<${JOIN}${fixed(least, decimals)}${JOIN}%`;
      return `${fixed(value, decimals)}${JOIN}%`;
    },
    probability: (probability) => `${typeset(String(Number((100 * probability).toFixed(2))))}${JOIN}%`,
    freedom(degrees) {
      if (degrees === null) return "∞";
      if (degrees > MANY_DEGREES) return `>${JOIN}${whole(MANY_DEGREES)}`;
      return Number.isInteger(degrees) || degrees >= 1000 ? whole(Math.floor(degrees)) : fixed(degrees, 1);
    },
    interval: ([low, high]) => `[${low}${separator.replaceAll(" ", JOIN)}${high}]`,
    list: (texts) => texts.join(separator),
  };
}

const together = ({ figures, power }: Entry): string => (power === "" ? figures : `${figures}${JOIN}×${JOIN}${power}`);

/** "10⁻⁶". */
export const powerOfTen = (exponent: number): string =>
  `10${exponent < 0 ? "⁻" : ""}${[...String(Math.abs(exponent))].map((digit) => RAISED[Number(digit)]).join("")}`;

/** Whether a unit begins with a power of ten that was taken out of its figures. */
const hasPower = (unit: string): boolean => /^10[⁻⁰¹²³⁴-⁹]/.test(unit);

/** A number and its unit, unbroken; dimension one has none. */
export function withUnit(number: string, unit: string): string {
  if (unit === "1" || unit === "") return number;
  return hasPower(unit) ? `${number}${JOIN}×${JOIN}${unit}` : `${number}${JOIN}${unit}`;
}

/** Unit of a quantity over another, as a divisor at an axis: "/ °C", "/ (10⁻⁶ m)". */
export const dividedBy = (unit: string): string =>
  unit === "1" ? "" : ` / ${/[/·\s]/.test(unit) ? `(${unit})` : unit}`;

/** Unit of a quotient of two quantities. */
export function quotientUnit(above: string, below: string): string {
  if (above === below) return "1";
  if (below === "1") return above;
  return `${above.includes("/") ? `(${above})` : above}/${/[/·\s]/.test(below) ? `(${below})` : below}`;
}

/** The exponent, a multiple of three, to take out of figures of this size so that they start before the decimal sign. */
export const exponentOfThousands = (size: number): number =>
  3 * Math.floor(Number(Math.abs(size).toExponential(1).split("e")[1]) / 3);
