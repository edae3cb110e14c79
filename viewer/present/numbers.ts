/** Texts of numbers as this page sets them: a true minus, thin spaces in long whole parts, trailing zeros kept. */

const MINUS = "\u2212";
const THIN = "\u202f";
const JOIN = "\u00a0";

/** Decimal places at which `uncertainty` shows this many significant digits; negative for places before the point. */
export function decimalsFor(uncertainty: number, digits: number): number {
  if (uncertainty === 0 || !Number.isFinite(uncertainty)) return 6;
  return digits - 1 - exponentOf(uncertainty, digits);
}

/** Power of ten of a number once it is rounded to `digits` significant digits: 0.0996 to one digit has −1. */
export const exponentOf = (value: number, digits: number): number =>
  Number(
    Math.abs(value)
      .toExponential(digits - 1)
      .split("e")[1],
  );

/** A number at a decimal place: `fixed(-0.00907, 4)` is "−0.0091"; never "−0". */
export function fixed(value: number, decimals: number): string {
  if (!Number.isFinite(value)) return value > 0 ? "∞" : value < 0 ? `${MINUS}∞` : "none";
  const places = Math.min(decimals, 100);
  // Scaled by a power of ten as a decimal text, so that rounding falls where it would on paper.
  const text =
    places >= 0 ? value.toFixed(places) : String(Math.round(value / Number(`1e${-places}`)) * Number(`1e${-places}`));
  return typeset(/^-0(\.0*)?$/.test(text) ? text.slice(1) : text);
}

/** A whole number: "1 000 000" with thin spaces. */
export const whole = (value: number): string => fixed(value, 0);

/** A number to significant digits, by powers of ten where it is very large or very small. */
export function significant(value: number, digits: number): string {
  if (value === 0) return "0";
  const exponent = exponentOf(value, digits);
  if (exponent >= -5 && exponent <= 6) return fixed(value, Math.max(0, digits - 1 - exponent));
  const { mantissa, power } = scientific(value, digits - 1);
  return `${mantissa}${JOIN}${power}`;
}

/** A number as mantissa and power of ten: "1.2" and "× 10⁻⁶". */
export function scientific(value: number, decimals: number): { readonly mantissa: string; readonly power: string } {
  const [mantissa, exponent] = value.toExponential(Math.max(0, Math.min(20, decimals))).split("e");
  return { mantissa: typeset(mantissa!), power: `×${JOIN}10${raised(Number(exponent))}` };
}

/** A share of one as percent, "54.6 %"; "< 0.1 %" where rounding would show nothing. */
export function percent(share: number, decimals = 1): string {
  const least = 10 ** -decimals;
  const value = 100 * share;
  if (value > 0 && value < least) return `<${JOIN}${fixed(least, decimals)}${JOIN}%`;
  return `${fixed(value, decimals)}${JOIN}%`;
}

/** A coverage probability as percent with the digits it has: 95 %, 95.45 %. */
export const probabilityText = (probability: number): string => `${Number((100 * probability).toFixed(2))}${JOIN}%`;

/** A number and its unit, unbroken; dimension one has none. */
export const withUnit = (number: string, unit: string): string =>
  unit === "1" || (number === "0" && /^×\s\S+$/.test(unit)) ? number : `${number}${JOIN}${unit}`;

/** Two numbers and their common unit: a power of ten needs them in brackets. */
export const rangeWithUnit = (from: string, to: string, unit: string): string =>
  unit.startsWith("×") ? withUnit(`(${from} to ${to})`, unit) : `${from} to ${withUnit(to, unit)}`;

/** A unit that begins with "× 10⁻⁶" is a number with a power of ten taken out; as a divisor it loses the sign. */
const divisor = (unit: string): string => {
  const bare = unit.replace(/^×\s/, "");
  return /[/·\s]/.test(bare) ? `(${bare})` : bare;
};

/** Head of an axis or a column: symbol over unit. */
export const overUnit = (symbol: string, unit: string): string =>
  unit === "1" ? symbol : `${symbol} / ${divisor(unit)}`;

/** Degrees of freedom, cut to a whole number (JCGM 100, G.4.1); where there are very many their number says nothing. */
export const freedom = (degrees: number | null): string =>
  degrees === null ? "∞" : degrees > MANY_DEGREES ? `>${JOIN}${whole(MANY_DEGREES)}` : whole(Math.floor(degrees));
const MANY_DEGREES = 100_000;

/** Unit of a quotient of two quantities: °C over Ω is "°C/Ω", a unit over itself is 1. */
export function quotientUnit(above: string, below: string): string {
  if (above === below) return "1";
  if (below === "1") return above;
  return `${above}/${divisor(below)}`;
}

function typeset(text: string): string {
  const [sign, digits] = text.startsWith("-") ? [MINUS, text.slice(1)] : ["", text];
  const [before, after] = digits.split(".");
  const grouped = before!.length > 4 ? before!.replace(/\B(?=(\d{3})+$)/g, THIN) : before!;
  return `${sign}${grouped}${after === undefined ? "" : `.${after}`}`;
}

const RAISED = "⁰¹²³⁴⁵⁶⁷⁸⁹";

/** A power as raised figures: "⁻⁶". */
export const raised = (exponent: number): string =>
  `${exponent < 0 ? "⁻" : ""}${[...String(Math.abs(exponent))].map((digit) => RAISED[Number(digit)]).join("")}`;
