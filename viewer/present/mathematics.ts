import type { Equation, Expression } from "../../models/index.ts";
import { symbolParts } from "./symbol.ts";

/** An element of MathML: what the page draws as nodes and the report writes as text. */
export interface MathElement {
  readonly tag: "math" | "mrow" | "mi" | "mn" | "mo" | "mtext" | "msub" | "msup" | "mfrac" | "msqrt" | "mroot";
  readonly attributes?: Readonly<Record<string, string>>;
  readonly children: readonly (MathElement | string)[];
}

type Call = Extract<Expression, { kind: "call" }>;
type Operation = Extract<Expression, { kind: "operation" }>;

/** What an expression is set with. */
interface Setting {
  symbolOf(name: string): string;
  readonly decimalSign: string;
}

/** How strongly what is set holds together: brackets stand only where they are needed. */
const STRENGTH = { sum: 1, product: 2, sign: 3, power: 4, whole: 5 } as const;

interface Set {
  readonly math: MathElement;
  readonly strength: number;
}

const element =
  (tag: MathElement["tag"], attributes?: Readonly<Record<string, string>>) =>
  (...children: readonly (MathElement | string)[]): MathElement => ({
    tag,
    children,
    ...(attributes === undefined ? {} : { attributes }),
  });
const row = element("mrow");
const upright = element("mtext");
const operator = element("mo");
/** A bracket that does not stretch with what it holds unless that is tall. */
const bracket = element("mo", { stretchy: "true" });
const number = element("mn");
/** Stands between a function and its bracket: nothing to see, but read aloud as "of". */
const APPLIED = operator("\u2061");

/**
 * Equations as mathematics, one element a line, as ISO 80000-2 and ISO 80000-1, 7.3 have them set: quantities italic with
 * upright subscripts, functions upright, quotients as fractions.
 *
 * @param symbolOf symbol of a quantity by its name
 * @param texts each line in plain text, for who cannot see it; as many as there are equations
 */
export function mathematics(
  equations: readonly Equation[],
  symbolOf: (name: string) => string,
  texts: readonly string[],
  decimalSign = ".",
): readonly MathElement[] {
  const setting: Setting = { symbolOf, decimalSign };
  return equations.map(({ name, expression }, i) =>
    element("math", { display: "block", alttext: texts[i] ?? "", "aria-label": texts[i] ?? "" })(
      row(symbolMath(symbolOf(name)), operator("="), set(expression, setting).math),
    ),
  );
}

/** A quantity's symbol: every letter italic by itself, since a word of several would stand upright. */
function symbolMath(symbol: string): MathElement {
  const { base, subscript, primes } = symbolParts(symbol);
  const letters = [...base].map((letter) => (/\p{Nd}/u.test(letter) ? number(letter) : element("mi")(letter)));
  const body = letters.length === 1 ? letters[0]! : row(...letters);
  const lowered = subscript === "" ? body : element("msub")(body, upright(subscript.replace(/[{}]/g, "")));
  return primes === "" ? lowered : row(lowered, operator(primes));
}

/** A number as print has it: a power of ten for very large and very small ones. */
function numberMath(value: number, decimalSign: string): Set {
  if (value === Math.PI) return { math: element("mi", { mathvariant: "normal" })("π"), strength: STRENGTH.whole };
  const [digits, exponent] = String(Math.abs(value)).split("e") as [string, string | undefined];
  const figures = number(digits.replace(".", decimalSign));
  const size =
    exponent === undefined
      ? figures
      : row(figures, operator("·"), element("msup")(number("10"), numberMath(Number(exponent), decimalSign).math));
  return value < 0
    ? { math: row(operator("−"), size), strength: STRENGTH.sign }
    : { math: size, strength: exponent === undefined ? STRENGTH.whole : STRENGTH.product };
}

const inBrackets = (math: MathElement): MathElement => row(bracket("("), math, bracket(")"));

/** An expression in brackets if it holds together less strongly than it must where it stands. */
function within(expression: Expression, least: number, setting: Setting): MathElement {
  const { math, strength } = set(expression, setting);
  return strength < least ? inBrackets(math) : math;
}

function set(expression: Expression, setting: Setting): Set {
  switch (expression.kind) {
    case "number":
      return numberMath(expression.value, setting.decimalSign);
    case "quantity":
      return { math: symbolMath(setting.symbolOf(expression.name)), strength: STRENGTH.whole };
    case "negative":
      return {
        math: row(operator("−"), within(expression.of, STRENGTH.power, setting)),
        strength: STRENGTH.sign,
      };
    case "call":
      return setCall(expression, setting);
    case "operation":
      return setOperation(expression, setting);
  }
}

function setOperation({ operator: sign, left, right }: Operation, setting: Setting): Set {
  switch (sign) {
    case "^":
      return {
        math: element("msup")(within(left, STRENGTH.whole, setting), within(right, STRENGTH.sum, setting)),
        strength: STRENGTH.power,
      };
    case "/":
      return {
        math: element("mfrac")(within(left, STRENGTH.sum, setting), within(right, STRENGTH.sum, setting)),
        // A fraction is one thing to what stands beside it, but not beneath a power.
        strength: STRENGTH.power,
      };
    case "*":
      return {
        math: row(within(left, STRENGTH.product, setting), operator("·"), within(right, STRENGTH.product + 1, setting)),
        strength: STRENGTH.product,
      };
    default:
      return {
        math: row(
          within(left, STRENGTH.sum, setting),
          operator(sign === "+" ? "+" : "−"),
          within(right, STRENGTH.sum + 1, setting),
        ),
        strength: STRENGTH.sum,
      };
  }
}

/** Functions that are symbols of quantities and stand italic: the platinum conversions. */
const CONVERSIONS = new Set(["t", "R", "t_90", "W_r"]);

function setCall({ name, operands }: Call, setting: Setting): Set {
  const parts = operands.map((operand) => within(operand, STRENGTH.sum, setting));
  const whole = (math: MathElement): Set => ({ math, strength: STRENGTH.whole });
  // Beneath a power a root needs brackets: whether the root or what is in it is raised could not be seen.
  if (name === "sqrt") return { math: element("msqrt")(parts[0]!), strength: STRENGTH.power };
  if (name === "cbrt") return { math: element("mroot")(parts[0]!, number("3")), strength: STRENGTH.power };
  if (name === "abs") return whole(row(bracket("|"), parts[0]!, bracket("|")));
  // A decimal comma needs another sign between values (ISO 80000-2, 2-3.1, remark).
  const separator = operator(setting.decimalSign === "," ? ";" : ",");
  const listed = parts.flatMap((part, i) => (i === 0 ? [part] : [separator, part]));
  const called = CONVERSIONS.has(name) ? symbolMath(name) : element("mi", { mathvariant: "normal" })(name);
  return whole(row(called, APPLIED, inBrackets(row(...listed))));
}
