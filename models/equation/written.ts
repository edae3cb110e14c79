import type { Expression, Operator } from "./tree.ts";

/** How strongly what is written holds together, so that brackets stand only where they are needed. */
export const STRENGTH = { sum: 1, product: 2, sign: 3, power: 4, whole: 5 } as const;

export interface Written {
  readonly text: string;
  readonly strength: number;
}

/** How a notation writes what is not a sum or a product. */
export interface Notation {
  number(value: number): string;
  quantity(name: string): string;
  call(name: string, operands: readonly string[]): string;
  /** @param write the text of a part, in brackets if it holds together less strongly than `least` */
  power(base: Expression, raised: Expression, write: (part: Expression, least: number) => string): Written;
  readonly minus: string;
  /** The operators with the spaces about them. */
  readonly operators: Readonly<Record<Exclude<Operator, "^">, string>>;
}

/** An expression in a notation. */
export const textOf = (expression: Expression, notation: Notation): string => written(expression, notation).text;

function written(expression: Expression, notation: Notation): Written {
  const write = (part: Expression, least: number): string => {
    const { text, strength } = written(part, notation);
    return strength < least ? `(${text})` : text;
  };
  switch (expression.kind) {
    case "number":
      return {
        text: notation.number(expression.value),
        strength: expression.value < 0 ? STRENGTH.sign : STRENGTH.whole,
      };
    case "quantity":
      return { text: notation.quantity(expression.name), strength: STRENGTH.whole };
    case "negative":
      return { text: `${notation.minus}${write(expression.of, STRENGTH.whole)}`, strength: STRENGTH.sign };
    case "call": {
      const operands = expression.operands.map((operand) => write(operand, STRENGTH.sum));
      return { text: notation.call(expression.name, operands), strength: STRENGTH.whole };
    }
    case "operation": {
      const { operator, left, right } = expression;
      if (operator === "^") return notation.power(left, right, write);
      const strength = operator === "+" || operator === "-" ? STRENGTH.sum : STRENGTH.product;
      // The right operand keeps its brackets even if the sign needs none: a·(b·c) and a + (b + c) round otherwise.
      const text = `${write(left, strength)}${notation.operators[operator]}${write(right, strength + 1)}`;
      return { text, strength };
    }
  }
}
