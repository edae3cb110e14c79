import type { Condition, Numeric, Program, ProgramFunction, Step } from "../../engine/internal.ts";
import { productFor } from "./evaluate.ts";
import type { Equation, Expression } from "./tree.ts";

/** The functions of `algebra` as those of programs. */
export interface AlgebraPrograms {
  /** Where a function is among `functions`, by its name and its number of operands: `exp/1`. */
  readonly places: Readonly<Record<string, number>>;
  readonly functions: readonly ProgramFunction[];
  readonly tables: Program["tables"];
}

const OPERATIONS = { "+": "add", "-": "sub", "*": "mul", "/": "div" } as const;
/** How often the base stands in a whole power that is a product. */
const FACTORS: Readonly<Record<string, number>> = { square: 2, cube: 3, fourth: 4 };

/**
 * Equations as a program: the operations of `script.ts` in the same order, so that the values are identical, bit for bit.
 *
 * @returns `null` if a function is none of programs
 */
export function programOfEquations(
  equations: readonly Equation[],
  measurands: readonly string[],
  algebra: AlgebraPrograms,
): Program | null {
  const body: Step[] = [];
  const places = new Map<string, number>();
  let locals = 0;
  let whole = true;

  const keep = (value: Numeric): Numeric => {
    if (value.op === "number" || value.op === "local" || value.op === "input") return value;
    const local = locals++;
    body.push({ step: "set", local, value });
    return { op: "local", local };
  };
  const called = (name: string, operands: readonly Numeric[]): Numeric => {
    const place = algebra.places[`${name}/${operands.length}`];
    if (place === undefined) whole = false;
    return { op: "call", called: place ?? 0, operands };
  };
  const power = (base: Numeric, raised: Expression): Numeric => {
    const product = productFor(raised);
    if (product === null) return called("pow", [base, numeric(raised)]);
    const factor = keep(base);
    let value = factor;
    for (let i = 1; i < FACTORS[product]!; i++) value = { op: "mul", left: value, right: factor };
    return value;
  };
  const call = (name: string, operands: readonly Numeric[]): Numeric => {
    const [of, other] = operands;
    if (name === "sqrt" || name === "abs") return { op: name, of: of! };
    if (name === "min" || name === "max") return { op: name, left: of!, right: other! };
    return name === "sgn" ? sign(keep(of!)) : called(name, operands);
  };
  function numeric(expression: Expression): Numeric {
    switch (expression.kind) {
      case "number":
        return { op: "number", value: expression.value };
      case "quantity": {
        const local = places.get(expression.name);
        return local === undefined ? { op: "input", name: expression.name, otherwise: null } : { op: "local", local };
      }
      case "negative":
        return { op: "neg", of: numeric(expression.of) };
      case "call":
        return call(expression.name, expression.operands.map(numeric));
      case "operation": {
        const { operator, left, right } = expression;
        if (operator === "^") return power(numeric(left), right);
        return { op: OPERATIONS[operator], left: numeric(left), right: numeric(right) };
      }
    }
  }

  for (const { name, expression } of equations) {
    const value = numeric(expression);
    const local = locals++;
    body.push({ step: "set", local, value });
    places.set(name, local);
  }
  const outputs = Object.fromEntries(
    measurands.map((name): [string, Numeric] => [name, { op: "local", local: places.get(name)! }]),
  );
  return whole ? { locals, body, outputs, tables: algebra.tables, functions: algebra.functions } : null;
}

/** 1, −1, or the number itself: 0, −0 and NaN. */
function sign(of: Numeric): Numeric {
  const zero: Numeric = { op: "number", value: 0 };
  const beside = (op: "lt" | "gt"): Condition => ({ op, left: of, right: zero });
  const negative: Numeric = { op: "choose", test: beside("lt"), yes: { op: "number", value: -1 }, no: of };
  return { op: "choose", test: beside("gt"), yes: { op: "number", value: 1 }, no: negative };
}
