/**
 * A unit as a product of powers of base units, times a power of ten and a factor. An unknown word is
 * treated as another base unit, so that `K/div` times `div` is K.
 */
export interface Unit {
  readonly powers: ReadonlyMap<string, number>;
  /** Integer power of ten, kept separately so that decimal prefixes convert exactly. */
  readonly ten: number;
  readonly factor: number;
  /** Zero of a temperature scale in kelvin; 0 for all other units. */
  readonly zero: number;
}

const PREFIXES: Readonly<Record<string, number>> = {
  f: -15,
  p: -12,
  n: -9,
  µ: -6,
  u: -6,
  m: -3,
  c: -2,
  d: -1,
  h: 2,
  k: 3,
  M: 6,
  G: 9,
};

/** Powers of m, g, s, A, K and mol, and a power of ten. The base of mass is the gram, since prefixes apply to it. */
type Row = readonly [powers: readonly number[], ten: number];
const BASES = ["m", "g", "s", "A", "K", "mol"] as const;
/** Units that take decimal prefixes (SI brochure, 9th edition, tables 2 and 4; bar and litre: tables 8 and following). */
const PREFIXED: Readonly<Record<string, Row>> = {
  m: [[1], 0],
  g: [[0, 1], 0],
  s: [[0, 0, 1], 0],
  A: [[0, 0, 0, 1], 0],
  K: [[0, 0, 0, 0, 1], 0],
  mol: [[0, 0, 0, 0, 0, 1], 0],
  Ω: [[2, 1, -3, -2], 3],
  S: [[-2, -1, 3, 2], -3],
  V: [[2, 1, -3, -1], 3],
  F: [[-2, -1, 4, 2], -3],
  H: [[2, 1, -2, -2], 3],
  W: [[2, 1, -3], 3],
  J: [[2, 1, -2], 3],
  N: [[1, 1, -2], 3],
  Pa: [[-1, 1, -2], 3],
  bar: [[-1, 1, -2], 8],
  Hz: [[0, 0, -1], 0],
  L: [[3], -3],
  l: [[3], -3],
};

const unit = (powers: Readonly<Record<string, number>>, ten = 0, factor = 1, zero = 0): Unit => ({
  powers: new Map(Object.entries(powers)),
  ten,
  factor,
  zero,
});
const ONE = unit({});
/** Units without prefixes. */
const WHOLE: Readonly<Record<string, Unit>> = {
  "1": ONE,
  rad: ONE,
  "%": unit({}, -2),
  "‰": unit({}, -3),
  ppm: unit({}, -6),
  ppb: unit({}, -9),
  min: unit({ s: 1 }, 0, 60),
  h: unit({ s: 1 }, 0, 3600),
  d: unit({ s: 1 }, 0, 86_400),
  "°C": unit({ K: 1 }, 0, 1, 273.15),
  // 1 °F is 5/9 K, and 0 °F is (273.15 − 32/1.8) K.
  "°F": unit({ K: 1 }, 0, 5 / 9, 459.67 / 1.8),
};

const RAISED = "⁰¹²³⁴⁵⁶⁷⁸⁹";

/** A unit in one spelling, whichever characters were typed for °C, Ω, µ and superscripts. */
function plain(text: string): string {
  return text
    .trim()
    .replaceAll("\u2126", "Ω")
    .replaceAll("μ", "µ")
    .replaceAll("−", "-")
    .replaceAll("⁻", "-")
    .replace(/[⁰¹²³⁴⁵⁶⁷⁸⁹]/g, (figure) => String(RAISED.indexOf(figure)))
    .replace(/(?:℃|[°º] ?C\b|\bdeg ?C\b|\bcelsius\b)/gi, "°C")
    .replace(/(?:℉|[°º] ?F\b|\bdeg ?F\b|\bfahrenheit\b)/gi, "°F")
    .replace(/ohms?\b/gi, "Ω")
    .replace(/\bkelvins?\b/gi, "K");
}

/** One name, with its prefix. */
function named(name: string): Unit {
  if (Object.hasOwn(WHOLE, name)) return WHOLE[name]!;
  const direct = row(name, 0);
  if (direct !== null) return direct;
  const [prefix, rest] = [PREFIXES[name[0]!], name.slice(1)];
  if (prefix !== undefined) {
    if (rest === "°C") return unit({ K: 1 }, prefix, 1, WHOLE["°C"]!.zero);
    const prefixed = row(rest, prefix);
    if (prefixed !== null) return prefixed;
  }
  return unit({ [name]: 1 });
}

function row(name: string, prefix: number): Unit | null {
  if (!Object.hasOwn(PREFIXED, name)) return null;
  const [powers, ten] = PREFIXED[name]!;
  return unit(
    Object.fromEntries(powers.flatMap((power, i) => (power === 0 ? [] : [[BASES[i]!, power] as const]))),
    // Derived units are defined with the kilogram; the base here is the gram.
    ten + prefix,
  );
}

/** a·b^n. */
function times(a: Unit, b: Unit, n: number): Unit {
  const powers = new Map(a.powers);
  for (const [base, power] of b.powers) {
    const sum = (powers.get(base) ?? 0) + n * power;
    if (sum === 0) powers.delete(base);
    else powers.set(base, sum);
  }
  let factor = a.factor;
  for (let i = 0; i < Math.abs(n); i++) factor = n > 0 ? factor * b.factor : factor / b.factor;
  return { powers, ten: a.ten + n * b.ten, factor, zero: 0 };
}

/** A longer text is no unit: brackets within brackets are read by as many calls within calls. */
const LONGEST = 200;

/**
 * Reads a unit: names with prefixes, powers (`m²`, `m2`, `s^-1`), products (`·`, `*`, a space) and quotients (`/`, with
 * brackets if more than one unit follows).
 *
 * @returns `null` if the text is not a unit, or can be read in two ways (`J/kg K`)
 */
export function readUnit(text: string): Unit | null {
  if (text.length > LONGEST) return null;
  const tokens = plain(text).match(/[\p{L}°%‰]+|\^?-?\d+|[·⋅*×/()]|\s+|./gu) ?? [];
  let at = 0;
  const peek = (): string | undefined => tokens[at];
  const spaces = (): boolean => {
    const before = at;
    while (peek()?.trim() === "") at += 1;
    return at > before;
  };

  const factor = (): Unit | null => {
    spaces();
    const token = tokens[at++];
    if (token === undefined) return null;
    let found: Unit | null;
    if (token === "(") {
      found = product();
      spaces();
      if (tokens[at++] !== ")") return null;
    } else if (token === "1") found = ONE;
    else found = /^[\p{L}°%‰]+$/u.test(token) ? named(token) : null;
    if (found === null) return null;
    if (/^\^?-?\d+$/.test(peek() ?? "")) {
      const power = Number(tokens[at++]!.replace("^", ""));
      return power === 0 || Math.abs(power) > 9 ? null : times(ONE, found, power);
    }
    return found;
  };

  function product(): Unit | null {
    let found = factor();
    let divided = false;
    while (found !== null) {
      const gap = spaces();
      const token = peek();
      if (token === undefined || token === ")") return found;
      const multiplied = /^[·⋅*×]$/.test(token);
      // "J/kg·K" is read as J/(kg·K) by some and (J/kg)·K by others (SI brochure, 5.4.1: no more than one without brackets).
      if ((multiplied || token !== "/") && divided) return null;
      if (multiplied || token === "/") at += 1;
      else if (!gap) return null;
      divided ||= token === "/";
      const next = factor();
      found = next === null ? null : times(found, next, token === "/" ? -1 : 1);
    }
    return null;
  }

  const found = product();
  spaces();
  return at === tokens.length ? found : null;
}

const powerOfTen = (n: number): number => Number(`1e${n}`);

/** Whether figures in the two units can be compared. */
function commensurable(a: Unit, b: Unit): boolean {
  return a.powers.size === b.powers.size && [...a.powers].every(([base, power]) => b.powers.get(base) === power);
}

/** The factor that converts a figure from one unit to another, or `null` if they are not commensurable. */
export function factorBetween(from: Unit, to: Unit): number | null {
  if (!commensurable(from, to)) return null;
  const n = from.ten - to.ten;
  const factor = from.factor / to.factor;
  // Division by 10³ is correctly rounded; multiplication by a rounded 10⁻³ is not.
  return n < 0 ? factor / powerOfTen(-n) : factor * powerOfTen(n);
}

/** The product of two units. */
export const unitProduct = (a: Unit, b: Unit): Unit => times(a, b, 1);

/** Conversion of figures from one unit to another: y = factor·x + offset. */
export interface Conversion {
  readonly factor: number;
  readonly offset: number;
}

/**
 * The conversion between two units in text form.
 *
 * @param difference whether the quantity is a difference of temperatures, to which no offset applies
 * @returns `null` if they are not commensurable, or one of them is not a unit
 */
export function conversionBetween(from: string, to: string, difference: boolean): Conversion | null {
  const [a, b] = [readUnit(from), readUnit(to)];
  const factor = a === null || b === null ? null : factorBetween(a, b);
  if (factor === null) return null;
  if (difference) return { factor, offset: 0 };
  return { factor, offset: (a!.zero - b!.zero) / b!.factor / powerOfTen(b!.ten) };
}
