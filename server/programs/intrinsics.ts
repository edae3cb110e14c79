import type { UnaryOperation } from "../../engine/internal.ts";
import { asNumeric, condition, constant, isConstant, notAProgram, number, numberNode, type Known } from "./values.ts";

const UNARY = new Map<unknown, UnaryOperation>([
  [Math.abs, "abs"],
  [Math.sqrt, "sqrt"],
  [Math.floor, "floor"],
  [Math.ceil, "ceil"],
  [Math.trunc, "trunc"],
]);
const EXTREMES = new Map<unknown, "min" | "max">([
  [Math.min, "min"],
  [Math.max, "max"],
]);
/** Functions of the language that are called where all they are given is constant. */
const PURE = new Set<unknown>([
  ...Object.getOwnPropertyNames(Math)
    .filter((name) => name !== "random")
    .map((name) => Math[name as keyof Math]),
  Number.isNaN,
  Number.isFinite,
  Number.isInteger,
  isNaN,
  isFinite,
]);

/**
 * What a function of the language itself gives, with exactly defined results; `null` for any other function.
 *
 * @param settled the same value, computed once where it is used several times
 */
export function intrinsic(called: unknown, operands: readonly Known[], settled: (known: Known) => Known): Known | null {
  if (PURE.has(called) && operands.every(isConstant))
    return constant((called as (...numbers: unknown[]) => unknown)(...operands.map(({ value }) => value)));
  const unary = UNARY.get(called);
  if (unary !== undefined) return number({ op: unary, of: asNumeric(operands[0]!) });
  const extreme = EXTREMES.get(called);
  if (extreme !== undefined && operands.length > 0)
    return number(operands.map(asNumeric).reduce((left, right) => ({ op: extreme, left, right })));
  if (called === Math.sign) return sign(settled(operands[0]!));
  if (called === Number.isNaN || called === isNaN) {
    const of = asNumeric(settled(operands[0]!));
    return condition({ op: "ne", left: of, right: of });
  }
  if (called === Number.isFinite || called === isFinite) {
    const of = asNumeric(settled(operands[0]!));
    return condition({ op: "eq", left: { op: "sub", left: of, right: of }, right: numberNode(0) });
  }
  if (called === Object.is && operands.length === 2)
    return condition({ op: "same", left: asNumeric(operands[0]!), right: asNumeric(operands[1]!) });
  return PURE.has(called) ? notAProgram("a function of Math whose last bits are the engine's") : null;
}

/** 1, −1, or the number itself: 0, −0 and NaN. */
function sign(known: Known): Known {
  const of = asNumeric(known);
  const test = (op: "lt" | "gt") => ({ op, left: of, right: numberNode(0) }) as const;
  return number({
    op: "choose",
    test: test("gt"),
    yes: numberNode(1),
    no: { op: "choose", test: test("lt"), yes: numberNode(-1), no: of },
  });
}
