/** Characters of the equation's text, from the first to the one after the last. */
export interface Place {
  readonly from: number;
  readonly to: number;
}

/** Operators that join two expressions. */
export type Operator = "+" | "-" | "*" | "/" | "^";

/** The right side of an equation, as plain data: nothing in it can be run. */
export type Expression =
  | { readonly kind: "number"; readonly value: number; readonly place: Place }
  | { readonly kind: "quantity"; readonly name: string; readonly place: Place }
  | { readonly kind: "negative"; readonly of: Expression; readonly place: Place }
  | {
      readonly kind: "operation";
      readonly operator: Operator;
      readonly left: Expression;
      readonly right: Expression;
      readonly place: Place;
    }
  | {
      readonly kind: "call";
      /** A name of `functions`. */
      readonly name: string;
      readonly operands: readonly Expression[];
      readonly place: Place;
    };

/** One equation: a quantity, and the expression that gives its value. */
export interface Equation {
  readonly name: string;
  readonly namePlace: Place;
  readonly expression: Expression;
}

/** What is wrong with an equation, and where: `got` and `expected` as in every message about input. */
export interface EquationProblem {
  readonly place: Place;
  readonly got: string;
  readonly expected: string;
}

/** The expressions directly below this one. */
export function partsOf(expression: Expression): readonly Expression[] {
  switch (expression.kind) {
    case "number":
    case "quantity":
      return [];
    case "negative":
      return [expression.of];
    case "operation":
      return [expression.left, expression.right];
    case "call":
      return expression.operands;
  }
}

/** Names of the quantities that an expression reads, each with its first place, in the order of the text. */
export function quantitiesOf(expression: Expression, found = new Map<string, Place>()): ReadonlyMap<string, Place> {
  if (expression.kind === "quantity" && !found.has(expression.name)) found.set(expression.name, expression.place);
  for (const part of partsOf(expression)) quantitiesOf(part, found);
  return found;
}
