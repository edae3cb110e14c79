/** Numbers as a reader sees them: a true minus, long whole parts in groups of three, trailing zeros kept. */

const MINUS = "\u2212";
const GROUP = "\u202f";
const JOIN = "\u00a0";

/**
 * Most decimal places a figure is printed with before a power of ten is taken out: a microkelvin and a micro-ohm, the
 * last digit of a good bridge, still read as they stand.
 */
export const MOST_PLACES = 6;

/** From this power of ten on, figures that would end in zeros have a power taken out too. */
export const LARGE_EXPONENT = 6;

/** Degrees of freedom past which their number changes nothing: a t distribution is then a normal one. */
const MANY_DEGREES = 100_000;

/** Degrees of freedom from which a decimal changes nothing: t changes by less than 0.01 % from one whole number to the next. */
const WHOLE_DEGREES = 100;

/** A number ready for a column: the digits, which stand under each other, and the unit, with any power of ten before it. */
export interface Entry {
  readonly digits: string;
  /** "°C", "10⁻⁶ °C", "10⁻⁶"; "1" for dimension one. */
  readonly unit: string;
}

/** Numbers as one language prints them. */
export interface Numbers {
  readonly decimalSign: string;
  /** At a decimal place, never "−0"; negative for places before the sign. */
  readonly fixed: (value: number, decimals: number) => string;
  readonly whole: (value: number) => string;
  /** To significant digits, by a power of ten where it is very large or very small. */
  readonly significant: (value: number, digits: number) => string;
  /** The same for a column. */
  readonly entry: (value: number, digits: number, unit: string) => Entry;
  /** With the digits it was written with. */
  readonly plain: (value: number) => string;
  /** A share of one as percent; "< 0.1 %" where rounding would print nothing. */
  readonly percent: (share: number, decimals?: number) => string;
  /** A coverage probability as percent with the digits it has: 95 %, 95.45 %. */
  readonly probability: (probability: number) => string;
  /**
   * Degrees of freedom: ∞ for `null`, one decimal below 100. They are cut to a whole number only to find t (JCGM 100,
   * G.4.2), so what is printed is the figure of the Welch–Satterthwaite formula itself.
   */
  readonly freedom: (degrees: number | null) => string;
  /** "[1.2, 3.4]", unbroken. */
  readonly interval: (ends: readonly [string, string]) => string;
  readonly list: (texts: readonly string[]) => string;
  /** Two numbers and their common unit, "1.2 to 3.4 °C": a power of ten needs them in brackets. */
  readonly range: (from: string, to: string, unit: string) => string;
}

/**
 * @param decimalSign "." or ","
 * @param separator between the numbers of an interval or a list
 * @param to between the ends of a range, with its spaces
 */
export function numbersWith(decimalSign: string, separator: string, to: string): Numbers {
  const typeset = (text: string): string => {
    const [sign, digits] = text.startsWith("-") ? [MINUS, text.slice(1)] : ["", text];
    const [before, after] = digits.split(".");
    const grouped = before!.length > 4 ? before!.replace(/\B(?=(\d{3})+$)/g, GROUP) : before!;
    return `${sign}${grouped}${after === undefined ? "" : decimalSign + after}`;
  };
  const fixed = (value: number, decimals: number): string => {
    if (!Number.isFinite(value)) return Number.isNaN(value) ? "–" : value > 0 ? "∞" : `${MINUS}∞`;
    const places = Math.min(decimals, 100);
    const text = places >= 0 ? value.toFixed(places) : wholeTo(value, Number(`1e${-places}`));
    return typeset(/^-0(\.0*)?$/.test(text) ? text.slice(1) : text);
  };
  const whole = (value: number): string => fixed(value, 0);
  const scientific = (value: number, decimals: number, unit: string): Entry => {
    const [mantissa, exponent] = value.toExponential(Math.max(0, Math.min(20, decimals))).split("e");
    return { digits: typeset(mantissa!), unit: unitWithPower(Number(exponent), unit) };
  };
  const entry = (value: number, digits: number, unit: string): Entry => {
    if (value === 0) return { digits: "0", unit };
    return needsPower(value, digits)
      ? scientific(value, digits - 1, unit)
      : { digits: fixed(value, Math.max(0, decimalsFor(value, digits))), unit };
  };
  const together = ({ digits, unit }: Entry): string => withUnit(digits, unit);
  return {
    decimalSign,
    fixed,
    whole,
    entry,
    significant: (value, digits) => together(entry(value, digits, "1")),
    plain(value) {
      if (Math.abs(value) === Infinity) return value > 0 ? "∞" : "−∞";
      const text = String(value);
      if (!text.includes("e")) return typeset(text);
      return together(scientific(value, (text.split("e")[0]!.split(".")[1] ?? "").length, "1"));
    },
    percent(share, decimals = 1) {
      const [value, least] = [100 * share, Number(`1e-${decimals}`)];
      if (value !== 0 && Math.abs(value) < least / 2) return `<${JOIN}${fixed(least, decimals)}${JOIN}%`;
      return `${fixed(value, decimals)}${JOIN}%`;
    },
    probability: (probability) => `${typeset(String(Number((100 * probability).toFixed(2))))}${JOIN}%`,
    freedom(degrees) {
      if (degrees === null) return "∞";
      if (degrees > MANY_DEGREES) return `>${JOIN}${whole(MANY_DEGREES)}`;
      return Number.isInteger(degrees) || degrees >= WHOLE_DEGREES ? whole(Math.floor(degrees)) : fixed(degrees, 1);
    },
    interval: ([low, high]) => `[${low}${separator.replaceAll(" ", JOIN)}${high}]`,
    list: (texts) => texts.join(separator),
    range: (from, end, unit) =>
      hasPower(unit) ? withUnit(`(${from}${to}${end})`, unit) : `${from}${to}${withUnit(end, unit)}`,
  };
}

/** Half rounded away from zero. */
const wholeTo = (value: number, unit: number): string =>
  String(Math.sign(value) * Math.round(Math.abs(value) / unit) * unit);

/** Numbers in English: those of the terminal, and of the page where it speaks English. */
export const english = numbersWith(".", ", ", " to ");
export const { fixed, whole, significant, percent, freedom, plain } = english;
export const probabilityText = english.probability;
export const rangeWithUnit = english.range;

/** Decimal places at which `uncertainty` shows this many significant digits; negative for places before the point. */
export function decimalsFor(uncertainty: number, digits: number): number {
  if (uncertainty === 0 || !Number.isFinite(uncertainty)) return MOST_PLACES;
  return digits - 1 - exponentOf(uncertainty, digits);
}

/** Power of ten of a number once it is rounded to `digits` significant digits: 0.0996 to one digit has −1. */
export const exponentOf = (value: number, digits: number): number =>
  Number(
    Math.abs(value)
      .toExponential(digits - 1)
      .split("e")[1],
  );

/** Whether a number with this many digits would have too many places, or zeros at its end. */
export const needsPower = (value: number, digits: number): boolean =>
  value !== 0 && (decimalsFor(value, digits) > MOST_PLACES || exponentOf(value, digits) >= LARGE_EXPONENT);

/** The exponent, a multiple of three, to take out of figures of this size so that they start before the decimal sign. */
export const exponentOfThousands = (size: number): number => 3 * Math.floor(exponentOf(size, 2) / 3);

const RAISED = "⁰¹²³⁴⁵⁶⁷⁸⁹";

/** "10⁻⁶". */
export const powerOfTen = (exponent: number): string =>
  `10${exponent < 0 ? "⁻" : ""}${[...String(Math.abs(exponent))].map((digit) => RAISED[Number(digit)]).join("")}`;

/** A unit with a power of ten before it: "10⁻⁶ °C"; for dimension one the power alone. */
export const unitWithPower = (exponent: number, unit: string): string =>
  exponent === 0 ? unit : `${powerOfTen(exponent)}${unit === "1" ? "" : `${JOIN}${unit}`}`;

/** Whether a unit begins with a power of ten that was taken out of its figures. */
const hasPower = (unit: string): boolean => /^10[⁻⁰¹²³⁴-⁹]/.test(unit);

/** What stands after a number: the unit, with "×" before a power of ten; nothing for dimension one. */
export const afterNumber = (unit: string): string =>
  unit === "1" || unit === "" ? "" : hasPower(unit) ? `×${JOIN}${unit}` : unit;

/** A number and its unit, unbroken. */
export const withUnit = (number: string, unit: string): string => {
  const after = number === "0" && hasPower(unit) && !/\s/.test(unit) ? "" : afterNumber(unit);
  return after === "" ? number : `${number}${JOIN}${after}`;
};

/** "(−0.049 ± 0.031) °C". */
export function plusMinus(estimate: string, uncertainty: string, unit: string): string {
  const both = `${estimate}${JOIN}±${JOIN}${uncertainty}`;
  return unit === "1" ? both : withUnit(`(${both})`, unit);
}

const divisor = (unit: string): string => (/[/·\s]/.test(unit) ? `(${unit})` : unit);

/** Unit as a divisor at an axis or in a head: " / °C", " / (10⁻⁶ m)"; nothing for dimension one. */
export const dividedBy = (unit: string): string => (unit === "1" ? "" : ` / ${divisor(unit)}`);

/** Head of an axis or a column: symbol over unit. */
export const overUnit = (symbol: string, unit: string): string => `${symbol}${dividedBy(unit)}`;

/** Unit of a quotient of two quantities: °C over Ω is "°C/Ω", a unit over itself is 1. */
export function quotientUnit(above: string, below: string): string {
  if (above === below) return "1";
  if (below === "1") return above;
  return `${above.includes("/") ? `(${above})` : above}/${divisor(below)}`;
}
