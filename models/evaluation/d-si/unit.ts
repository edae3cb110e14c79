/** Names of units in D-SI notation (SI brochure, 9th edition, tables 2, 4 and 8), with whether they take prefixes. */
const NAMES: Readonly<Record<string, readonly [name: string, prefixed: boolean]>> = {
  m: ["metre", true],
  g: ["gram", true],
  s: ["second", true],
  A: ["ampere", true],
  K: ["kelvin", true],
  mol: ["mole", true],
  Ω: ["ohm", true],
  S: ["siemens", true],
  V: ["volt", true],
  F: ["farad", true],
  H: ["henry", true],
  W: ["watt", true],
  J: ["joule", true],
  N: ["newton", true],
  Pa: ["pascal", true],
  Hz: ["hertz", true],
  L: ["litre", true],
  l: ["litre", true],
  "°C": ["degreecelsius", true],
  kg: ["kilogram", false],
  rad: ["radian", false],
  min: ["minute", false],
  h: ["hour", false],
  d: ["day", false],
  "%": ["percent", false],
};

const PREFIXES: Readonly<Record<string, string>> = {
  f: "femto",
  p: "pico",
  n: "nano",
  µ: "micro",
  u: "micro",
  m: "milli",
  c: "centi",
  d: "deci",
  h: "hecto",
  k: "kilo",
  M: "mega",
  G: "giga",
};

const RAISED = "⁰¹²³⁴⁵⁶⁷⁸⁹";

/**
 * A unit in D-SI notation: `mK` is `\milli\kelvin`, `kg/m³` is `\kilogram\per\metre\tothe{3}`, the unit one is `\one`.
 *
 * @returns `null` for a unit that is none of the SI or accepted with it, such as °F or a scale's division
 */
export function dsiUnit(text: string): string | null {
  const plain = text
    .trim()
    .replaceAll("\u2126", "Ω")
    .replaceAll("μ", "µ")
    .replace(/[−⁻]/g, "-")
    .replace(/[⁰¹²³⁴⁵⁶⁷⁸⁹]/g, (figure) => String(RAISED.indexOf(figure)));
  if (plain === "1") return "\\one";
  const sides = /^([^/()]+)(?:\/(?:\(([^/()]+)\)|([^/()·⋅*× ]+)))?$/.exec(plain);
  if (sides === null) return null;
  const above = factors(sides[1]!, 1);
  const below = factors(sides[2] ?? sides[3] ?? "1", -1);
  if (above === null || below === null) return null;
  // Without anything above, "per" would have nothing before it.
  const named = (factor: Factor): string =>
    factor.power < 0 && above.length > 0
      ? `\\per${factor.name}${raised(-factor.power)}`
      : `${factor.name}${raised(factor.power)}`;
  return [...above, ...below].map(named).join("");
}

interface Factor {
  readonly name: string;
  readonly power: number;
}

const raised = (power: number): string => (power === 1 ? "" : `\\tothe{${power}}`);

/** The factors of a product; `null` if one is unknown. */
function factors(product: string, sign: 1 | -1): Factor[] | null {
  const found: Factor[] = [];
  for (const part of product.split(/[·⋅*×\s]+/)) {
    if (part === "1") continue;
    const [, name, power] = /^([^\d^-]+)\^?(-?\d)?$/.exec(part) ?? [];
    const unit = name === undefined ? null : nameOf(name);
    if (unit === null || power === "0") return null;
    found.push({ name: unit, power: sign * Number(power ?? 1) });
  }
  return found;
}

function nameOf(text: string): string | null {
  if (Object.hasOwn(NAMES, text)) return `\\${NAMES[text]![0]}`;
  const [prefix, rest] = [text[0]!, text.slice(1)];
  if (!Object.hasOwn(PREFIXES, prefix) || !Object.hasOwn(NAMES, rest) || !NAMES[rest]![1]) return null;
  return `\\${PREFIXES[prefix]!}\\${NAMES[rest]![0]}`;
}
