import type { Equation, Expression } from "./tree.ts";

const SIGNS = { "+": "+", "-": "−", "*": "·", "/": "/", "^": "^" } as const;
const SUM = 1;
const PRODUCT = 2;
const SIGN = 3;
const ATOM = 4;

/** An equation in plain text as print has it (· and −, brackets only where needed), with the symbols of the quantities. */
export const equationText = (equations: readonly Equation[], symbolOf: (name: string) => string): string =>
  equations.map(({ name, expression }) => `${symbolOf(name)} = ${written(expression, symbolOf).text}`).join("; ");

interface Written {
  readonly text: string;
  readonly strength: number;
}

function written(expression: Expression, symbolOf: (name: string) => string): Written {
  const write = (part: Expression, least: number): string => {
    const { text, strength } = written(part, symbolOf);
    return strength < least ? `(${text})` : text;
  };
  switch (expression.kind) {
    case "number":
      return { text: numeral(expression.value), strength: expression.value < 0 ? SIGN : ATOM };
    case "quantity":
      return { text: symbolOf(expression.name), strength: ATOM };
    case "negative":
      return { text: `−${write(expression.of, ATOM)}`, strength: SIGN };
    case "call": {
      const operands = expression.operands.map((operand) => write(operand, SUM));
      const text = expression.name === "abs" ? `|${operands[0]}|` : `${expression.name}(${operands.join(", ")})`;
      return { text, strength: ATOM };
    }
    case "operation": {
      const { operator, left, right } = expression;
      if (operator === "^") return { text: `${write(left, ATOM)}^${write(right, ATOM)}`, strength: ATOM - 0.5 };
      const strength = operator === "+" || operator === "-" ? SUM : PRODUCT;
      const sign = operator === "*" || operator === "/" ? SIGNS[operator] : ` ${SIGNS[operator]} `;
      return {
        text: `${write(left, strength)}${operator === "/" ? " / " : sign}${write(right, strength + 1)}`,
        strength,
      };
    }
  }
}

const numeral = (value: number): string => (value === Math.PI ? "π" : String(value).replace("-", "−"));
