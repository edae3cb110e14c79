import { productFor } from "./evaluate.ts";
import type { Equation, Expression } from "./tree.ts";
import { STRENGTH, textOf } from "./written.ts";

/** How a script writes quantities and functions. */
export interface Spelling {
  quantity(name: string): string;
  called(name: string): string;
}

/**
 * An expression as JavaScript (and TypeScript) text. It is made from the checked tree alone: numbers, names by way of
 * `spelling`, the five operators and calls; nothing of what was typed is copied.
 */
export const scriptOf = (expression: Expression, { quantity, called }: Spelling): string =>
  textOf(expression, {
    number: String,
    quantity,
    call: (name, operands) => `${called(name)}(${operands.join(", ")})`,
    power(base, raised, write) {
      const product = productFor(raised);
      const operands = product === null ? [base, raised] : [base];
      const text = `${called(product ?? "pow")}(${operands.map((part) => write(part, STRENGTH.sum)).join(", ")})`;
      return { text, strength: STRENGTH.whole };
    },
    minus: "-",
    operators: { "+": " + ", "-": " - ", "*": " * ", "/": " / " },
  });

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
