import type { Comparison, Condition } from "../../engine/internal.ts";
import {
  asCondition,
  asNumeric,
  asWhole,
  condition,
  constant,
  isConstant,
  notAProgram,
  number,
  whole,
  type Known,
} from "./values.ts";

const ARITHMETIC: Readonly<Record<string, "add" | "sub" | "mul" | "div">> = {
  "+": "add",
  "-": "sub",
  "*": "mul",
  "/": "div",
};
const BITS: Readonly<Record<string, "and" | "or" | "xor">> = { "&": "and", "|": "or", "^": "xor" };
const SHIFTS: Readonly<Record<string, "shl" | "shr" | "shru">> = { "<<": "shl", ">>": "shr", ">>>": "shru" };
const COMPARISONS: Readonly<Record<string, Comparison>> = {
  "<": "lt",
  "<=": "le",
  ">": "gt",
  ">=": "ge",
  "===": "eq",
  "==": "eq",
  "!==": "ne",
  "!=": "ne",
};

/** What two constants give. */
function folded(operator: string, a: unknown, b: unknown): unknown {
  if (typeof a === "bigint" || typeof b === "bigint") return notAProgram("a big integer");
  if ((typeof a === "object" && a !== null) || (typeof b === "object" && b !== null)) {
    if (operator === "===") return a === b;
    return operator === "!==" ? a !== b : notAProgram(`${operator} of an object`);
  }
  const [x, y] = [a, b] as [number, number];
  switch (operator) {
    case "+":
      return x + y;
    case "-":
      return x - y;
    case "*":
      return x * y;
    case "/":
      return x / y;
    case "%":
      return x % y;
    case "**":
      return x ** y;
    case "&":
      return x & y;
    case "|":
      return x | y;
    case "^":
      return x ^ y;
    case "<<":
      return x << y;
    case ">>":
      return x >> y;
    case ">>>":
      return x >>> y;
    case "<":
      return x < y;
    case "<=":
      return x <= y;
    case ">":
      return x > y;
    case ">=":
      return x >= y;
    case "===":
      return x === y;
    case "!==":
      return x !== y;
    default:
      return notAProgram(`the operator ${operator}`);
  }
}

const isNumber = (known: Known): boolean =>
  known.kind === "number" || known.kind === "whole" || (isConstant(known) && typeof known.value === "number");

const mayMiss = (known: Known): boolean => known.kind === "number" && known.maybe === true;

/** An operator between two values. */
export function binary(operator: string, left: Known, right: Known): Known {
  if (isConstant(left) && isConstant(right)) return constant(folded(operator, left.value, right.value));
  // A number is neither undefined nor null nor a text.
  if ((operator === "===" || operator === "!==") && isNumber(left) !== isNumber(right))
    return mayMiss(left) || mayMiss(right)
      ? notAProgram("an input that may be left out")
      : constant(operator === "!==");
  if (operator in COMPARISONS)
    return condition({ op: COMPARISONS[operator]!, left: asNumeric(left), right: asNumeric(right) });
  if (operator in ARITHMETIC)
    return number({ op: ARITHMETIC[operator]!, left: asNumeric(left), right: asNumeric(right) });
  if (operator in BITS) return whole({ op: BITS[operator]!, left: asWhole(left), right: asWhole(right) });
  if (operator in SHIFTS && isConstant(right) && typeof right.value === "number")
    return whole({ op: SHIFTS[operator]!, of: asWhole(left), by: right.value & 31 }, operator === ">>>");
  if (operator === "%" && isConstant(right)) return remainder(left, right.value);
  return notAProgram(`the operator ${operator}`);
}

function remainder(left: Known, by: unknown): Known {
  const two = typeof by === "number" && by >= 1 && by <= 2 ** 30 && Number.isInteger(Math.log2(by));
  return two ? number({ op: "remainder", of: asNumeric(left), by }) : notAProgram("a remainder");
}

/** An operator before a value. */
export function unary(operator: string, of: Known): Known {
  switch (operator) {
    case "-":
      return isConstant(of) ? constant(-(of.value as number)) : number({ op: "neg", of: asNumeric(of) });
    case "+":
      return number(asNumeric(of));
    case "~":
      return whole({ op: "xor", left: asWhole(of), right: { op: "whole", value: -1 } });
    case "!":
      return negated(asCondition(of));
    case "typeof":
      if (isConstant(of)) return constant(typeof of.value);
      return isNumber(of) && !mayMiss(of) ? constant("number") : notAProgram("typeof");
    default:
      return notAProgram(`the operator ${operator}`);
  }
}

const negated = (of: boolean | Condition): Known =>
  typeof of === "boolean" ? constant(!of) : condition({ op: "not", of });
