import { algebra, type FunctionName } from "./functions.ts";
import type { Expression } from "./tree.ts";

/** Value of an expression: `x` holds every quantity by name. */
export type Evaluation = (x: Readonly<Record<string, number>>) => number;

/** Powers that are multiplied out: faster than `pow`, and what a person would write. */
const PRODUCTS: ReadonlyMap<number, FunctionName> = new Map([
  [2, "square"],
  [3, "cube"],
  [4, "fourth"],
]);

/** The function that gives a whole power as a product, or `null` for any other power. */
export const productFor = (raised: Expression): FunctionName | null =>
  raised.kind === "number" ? (PRODUCTS.get(raised.value) ?? null) : null;

/**
 * A function that evaluates an expression by walking its tree. It needs no text to be run, so it works in a page with
 * a strict content policy; the same operations in the same order as the script of `script.ts`, so that the values are identical, bit for bit.
 */
export function evaluation(expression: Expression): Evaluation {
  switch (expression.kind) {
    case "number": {
      const { value } = expression;
      return () => value;
    }
    case "quantity": {
      const { name } = expression;
      return (x) => x[name]!;
    }
    case "negative": {
      const of = evaluation(expression.of);
      return (x) => -of(x);
    }
    case "operation":
      return operation(expression);
    case "call":
      return call(algebra[expression.name as FunctionName], expression.operands.map(evaluation));
  }
}

function operation({ operator, left, right }: Extract<Expression, { kind: "operation" }>): Evaluation {
  const a = evaluation(left);
  const b = evaluation(right);
  switch (operator) {
    case "+":
      return (x) => a(x) + b(x);
    case "-":
      return (x) => a(x) - b(x);
    case "*":
      return (x) => a(x) * b(x);
    case "/":
      return (x) => a(x) / b(x);
    case "^":
      return power(a, b, productFor(right));
  }
}

function power(a: Evaluation, b: Evaluation, product: FunctionName | null): Evaluation {
  return product === null ? call(algebra.pow, [a, b]) : call(algebra[product], [a]);
}

function call(called: (...operands: number[]) => number, operands: readonly Evaluation[]): Evaluation {
  const [a, b] = operands;
  if (operands.length === 1) return (x) => called(a!(x));
  if (operands.length === 2) return (x) => called(a!(x), b!(x));
  return (x) => called(...operands.map((operand) => operand(x)));
}
