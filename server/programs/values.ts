import type { FunctionDeclaration, FunctionExpression, ArrowFunctionExpression } from "acorn";
import type { Condition, Numeric, Whole } from "../../engine/internal.ts";

/** A part of a model that is no part of a program: the plain path does it. */
export class NotAProgram extends Error {}

export const notAProgram = (what: string): never => {
  throw new NotAProgram(what);
};

export type FunctionNode = FunctionDeclaration | FunctionExpression | ArrowFunctionExpression;

/** What a name stands for. */
export type Binding =
  | { readonly kind: "value"; readonly value: Known }
  /** A number that the function assigns to more than once; `frame` is the call it belongs to. */
  | { readonly kind: "variable"; readonly local: number; readonly frame: object };

/** Names, from the innermost scope outwards. */
export interface Names {
  readonly own: Map<string, Binding>;
  readonly outer: Names | null;
}

/**
 * What is known of a value when a model is read: a constant itself, or how a program computes it. Objects, lists and
 * functions exist only then.
 */
export type Known =
  | { readonly kind: "constant"; readonly value: unknown }
  /** `maybe` where a study may leave the input out, which then is undefined. */
  | { readonly kind: "number"; readonly node: Numeric; readonly maybe?: true }
  | { readonly kind: "whole"; readonly node: Whole; readonly unsigned: boolean }
  | { readonly kind: "condition"; readonly node: Condition }
  | { readonly kind: "fields"; readonly fields: ReadonlyMap<string, Known> }
  | { readonly kind: "list"; readonly items: readonly Known[] }
  | { readonly kind: "function"; readonly node: FunctionNode; readonly names: Names }
  /** The values of a trial, as the model gets them; these inputs are always among them. */
  | { readonly kind: "trial"; readonly inputs: ReadonlySet<string> };

export const constant = (value: unknown): Known => ({ kind: "constant", value });
export const number = (node: Numeric): Known => ({ kind: "number", node });
export const condition = (node: Condition): Known => ({ kind: "condition", node });
export const whole = (node: Whole, unsigned = false): Known => ({ kind: "whole", node, unsigned });
export const numberNode = (value: number): Numeric => ({ op: "number", value });

export const isConstant = (known: Known): known is Extract<Known, { kind: "constant" }> => known.kind === "constant";

/** A value as a number. What ECMAScript would convert (a text, a truth value) is no part of a program. */
export function asNumeric(known: Known): Numeric {
  switch (known.kind) {
    case "constant":
      return typeof known.value === "number" ? numberNode(known.value) : notAProgram("a constant that is no number");
    case "number":
      return known.node;
    case "whole":
      return { op: known.unsigned ? "unsigned" : "signed", of: known.node };
    default:
      return notAProgram(`a ${known.kind} as a number`);
  }
}

/** A value as the operators on bits take it. */
export function asWhole(known: Known): Whole {
  if (known.kind === "whole") return known.node;
  const node = asNumeric(known);
  if (node.op === "number") return { op: "whole", value: node.value | 0 };
  // A sum of two such integers is exact, and its last 32 bits are those of the sum of their bits.
  if (node.op === "add" || node.op === "sub") {
    const left = integerOf(node.left);
    const right = integerOf(node.right);
    if (left !== null && right !== null) return { op: node.op === "add" ? "plus" : "minus", left, right };
  }
  return { op: "toWhole", of: node };
}

/** The 32 bits of a number that is known to be such an integer. */
function integerOf(node: Numeric): Whole | null {
  if (node.op === "signed" || node.op === "unsigned") return node.of;
  return node.op === "number" && Number.isInteger(node.value) && Math.abs(node.value) < 2 ** 32
    ? { op: "whole", value: node.value | 0 }
    : null;
}

/** A value as an index into a table. */
export function asIndex(known: Known): Whole {
  if (known.kind === "whole" && !known.unsigned) return known.node;
  const of = asNumeric(known);
  return { op: "index", of, whole: isWhole(of) };
}

/** Whether a number is whole by the way it is made. */
function isWhole(node: Numeric): boolean {
  switch (node.op) {
    case "number":
      return Number.isInteger(node.value);
    case "signed":
    case "unsigned":
      return true;
    case "add":
    case "sub":
    case "mul":
    case "min":
    case "max":
      return isWhole(node.left) && isWhole(node.right);
    default:
      return false;
  }
}

/** A value where a truth value is asked for: itself if it is constant. */
export function asCondition(known: Known): boolean | Condition {
  switch (known.kind) {
    case "constant":
      return Boolean(known.value);
    case "condition":
      return known.node;
    case "number":
    case "whole": {
      const left = asNumeric(known);
      const zero: Condition = { op: "eq", left, right: numberNode(0) };
      return { op: "not", of: { op: "either", left: zero, right: { op: "ne", left, right: left } } };
    }
    default:
      return true;
  }
}
