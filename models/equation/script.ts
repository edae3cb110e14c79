import { productFor } from "./evaluate.ts";
import type { Equation, Expression } from "./tree.ts";

/** How a script writes quantities and functions. */
export interface Spelling {
  quantity(name: string): string;
  called(name: string): string;
}

/** Binding strength of what is written, so that brackets stand only where they are needed. */
const SUM = 1;
const PRODUCT = 2;
const SIGN = 3;
const ATOM = 4;

/**
 * An expression as JavaScript (and TypeScript) text. It is made from the checked tree alone: numbers, names by way of
 * `spelling`, the five operators and calls; nothing of what was typed is copied.
 */
export function scriptOf(expression: Expression, spelling: Spelling): string {
  return written(expression, spelling).text;
}

interface Written {
  readonly text: string;
  readonly strength: number;
}

const bracketed = ({ text, strength }: Written, least: number): string => (strength < least ? `(${text})` : text);

function written(expression: Expression, spelling: Spelling): Written {
  const write = (part: Expression): Written => written(part, spelling);
  switch (expression.kind) {
    case "number":
      return expression.value < 0
        ? { text: String(expression.value), strength: SIGN }
        : { text: String(expression.value), strength: ATOM };
    case "quantity":
      return { text: spelling.quantity(expression.name), strength: ATOM };
    case "negative":
      return { text: `-${bracketed(write(expression.of), ATOM)}`, strength: SIGN };
    case "call": {
      const operands = expression.operands.map((operand) => write(operand).text).join(", ");
      return { text: `${spelling.called(expression.name)}(${operands})`, strength: ATOM };
    }
    case "operation":
      return operation(expression, write, spelling);
  }
}

function operation(
  { operator, left, right }: Extract<Expression, { kind: "operation" }>,
  write: (part: Expression) => Written,
  spelling: Spelling,
): Written {
  if (operator === "^") {
    const product = productFor(right);
    const base = write(left).text;
    const text =
      product === null
        ? `${spelling.called("pow")}(${base}, ${write(right).text})`
        : `${spelling.called(product)}(${base})`;
    return { text, strength: ATOM };
  }
  const strength = operator === "+" || operator === "-" ? SUM : PRODUCT;
  // The right operand keeps its brackets even where the sign would not need them: a·(b·c) and a + (b + c) round otherwise.
  return {
    text: `${bracketed(write(left), strength)} ${operator} ${bracketed(write(right), strength + 1)}`,
    strength,
  };
}

/**
 * Text of a JavaScript function that takes the functions of `algebra` and gives the model's `evaluate`: as fast as one
 * written by hand. Quantities are read from the trial by their declared names, lines in between are constants.
 *
 * @param measurands names of the equations that are results
 */
export function evaluateScript(equations: readonly Equation[], measurands: readonly string[]): string {
  const between = new Set(equations.map(({ name }) => name));
  const local = (name: string): string => `q${equations.findIndex((equation) => equation.name === name)}`;
  const spelling: Spelling = {
    quantity: (name) => (between.has(name) ? local(name) : `x[${JSON.stringify(name)}]`),
    called: (name) => `f_${name}`,
  };
  const called = new Set<string>();
  const lines = equations.map(({ name, expression }) => {
    const text = scriptOf(expression, {
      ...spelling,
      called: (called_) => {
        called.add(called_);
        return spelling.called(called_);
      },
    });
    return `const ${local(name)} = ${text};`;
  });
  const results =
    measurands.length === 1
      ? local(measurands[0]!)
      : `{ ${measurands.map((name) => `${JSON.stringify(name)}: ${local(name)}`).join(", ")} }`;
  const constants = [...called].map((name) => `const f_${name} = algebra[${JSON.stringify(name)}];`);
  return `((algebra) => { "use strict"; ${constants.join(" ")} return (x) => { ${lines.join(" ")} return ${results}; }; })`;
}
