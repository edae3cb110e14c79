import type { Equation } from "./tree.ts";
import { STRENGTH, textOf, type Notation } from "./written.ts";

/** Equations in plain text, one after the other, as a record has them. */
export const equationText = (equations: readonly Equation[], symbolOf: (name: string) => string): string =>
  equationTexts(equations, symbolOf).join("; ");

/** Each equation in plain text as print has it (· and −, brackets only where needed), with the quantities' symbols. */
export function equationTexts(equations: readonly Equation[], symbolOf: (name: string) => string): readonly string[] {
  const notation: Notation = {
    number: (value) => (value === Math.PI ? "π" : String(value).replace("-", "−")),
    quantity: symbolOf,
    call: (name, operands) => (name === "abs" ? `|${operands[0]}|` : `${name}(${operands.join(", ")})`),
    power: (base, raised, write) => ({
      text: `${write(base, STRENGTH.whole)}^${write(raised, STRENGTH.whole)}`,
      strength: STRENGTH.power,
    }),
    minus: "−",
    operators: { "+": " + ", "-": " − ", "*": "·", "/": " / " },
  };
  return equations.map(({ name, expression }) => `${symbolOf(name)} = ${textOf(expression, notation)}`);
}
