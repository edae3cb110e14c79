import type { Model } from "../../engine/index.ts";
import type { Numeric, Program } from "../../engine/internal.ts";
import { bindPattern, readCall } from "./calls.ts";
import { field, readExpression } from "./expressions.ts";
import type { ModuleScope } from "./module-scope.ts";
import { collector, type Reading } from "./reading.ts";
import { readStatement } from "./statements.ts";
import { asNumeric, NotAProgram, type FunctionNode, type Known } from "./values.ts";

/**
 * A model as a program, read from the text of its module; `null` if it uses what is no part of one: numbers, conditions,
 * loops, constants, functions of the module's top level and those of the language with exactly defined results.
 */
export function programOfModel(model: Model, scope: ModuleScope): Program | null {
  const optional = Object.keys(model.optionalInputs ?? {});
  const inputs = new Set(Object.keys(model.inputs).filter((name) => !optional.includes(name)));
  return reading(scope, (read, collected) => {
    const found = read(scope.nodeOf(model.evaluate), [{ kind: "trial", inputs }]);
    const names = Object.keys(model.measurands);
    const outputs: Record<string, Numeric> = {};
    for (const name of names)
      outputs[name] = asNumeric(names.length === 1 && isNumber(found) ? found : field(collected, found, name));
    return outputs;
  });
}

const isNumber = ({ kind }: Known): boolean => kind === "number" || kind === "whole" || kind === "constant";

function reading(
  scope: ModuleScope,
  read: (call: (node: FunctionNode, operands: readonly Known[]) => Known, collected: Reading) => Program["outputs"],
): Program | null {
  const collected = collector();
  const state: Reading = {
    ...collected,
    scope,
    value: (expression, names, frame) => readExpression(state, expression, names, frame),
    run: (statement, names, frame) => readStatement(state, statement, names, frame),
    call: (node, names, operands) => readCall(state, node, names, operands),
    bind: (pattern, value, names, frame) => bindPattern(state, pattern, value, names, frame),
  };
  try {
    return collected.program(
      read((node, operands) => state.call(node, { own: new Map(), outer: null }, operands), state),
    );
  } catch (error) {
    if (error instanceof NotAProgram) return null;
    throw error;
  }
}
