/** A unit as a decimal multiple of a base unit. */
export interface UnitScale {
  readonly base: string;
  readonly factor: number;
}

const PREFIXES: Readonly<Record<string, number>> = { n: 1e-9, µ: 1e-6, μ: 1e-6, u: 1e-6, m: 1e-3, k: 1e3, M: 1e6 };
const BASES: ReadonlySet<string> = new Set(["K", "Ω", "m", "g", "V", "A", "s", "Pa", "Hz", "mol"]);
/** Intervals of °C are kelvins. */
const SAME: Readonly<Record<string, string>> = { "°C": "K", Ω: "Ω" };

/** A unit as it is printed: the ways of typing °C and Ω come out as one. */
export function unitName(unit: string): string {
  const text = unit.trim();
  if (/^(deg ?c|º ?c|° ?c|℃|celsius)$/i.test(text)) return "°C";
  return text.replace(/^([nuµmkM]?)(ohms?|Ω)$/i, "$1Ω");
}

/** Reads a unit with a decimal prefix; an unknown unit is its own base. */
export function unitScale(unit: string): UnitScale {
  const text = unitName(unit);
  const whole = SAME[text] ?? text;
  if (BASES.has(whole)) return { base: whole, factor: 1 };
  const prefix = PREFIXES[text[0] ?? ""];
  const rest = SAME[text.slice(1)] ?? text.slice(1);
  if (prefix !== undefined && BASES.has(rest)) return { base: rest, factor: prefix };
  return { base: text, factor: 1 };
}

/** What a figure in one unit must be multiplied by to be in another, or `null` where they do not go together. */
export function unitFactor(from: string, to: string): number | null {
  const a = unitScale(from);
  const b = unitScale(to);
  if (a.base !== b.base) return null;
  // Division keeps 10⁻³ exact where a product of reciprocals would not.
  return a.factor / b.factor;
}
