import type { Model } from "../../engine/index.ts";
import type { Numeric, Program, ProgramFunction } from "../../engine/internal.ts";
import { bindPattern, readCall } from "./calls.ts";
import { field, readExpression } from "./expressions.ts";
import type { ModuleScope } from "./module-scope.ts";
import { collector, type Collector, type Reading } from "./reading.ts";
import { readStatement } from "./statements.ts";
import { asNumeric, NotAProgram, number, type Known, type Names } from "./values.ts";

/**
 * A model as a program, read from the text of its module; `null` if it uses what is no part of one: numbers, conditions,
 * loops, constants, functions of the module's top level and those of the language with exactly defined results.
 */
export function programOfModel(model: Model, scope: ModuleScope): Program | null {
  const optional = Object.keys(model.optionalInputs ?? {});
  const inputs = new Set(Object.keys(model.inputs).filter((name) => !optional.includes(name)));
  const { state, collected } = opened(scope);
  return orNull(() => {
    const found = state.call(scope.nodeOf(model.evaluate), MODULE, [{ kind: "trial", inputs }]);
    const names = Object.keys(model.measurands);
    const outputs: Record<string, Numeric> = {};
    for (const name of names)
      outputs[name] = asNumeric(names.length === 1 && isNumber(found) ? found : field(state, found, name));
    return { locals: collected.locals(), body: collected.steps(), outputs, tables: state.tables, functions: [] };
  });
}

/** A function of numbers that is to be read. */
export interface NamedFunction {
  readonly name: string;
  readonly value: unknown;
  /** How many numbers it is given. */
  readonly operands: number;
}

/** Functions of numbers as those of programs, by name, as far as they are to be had, and the tables of all. */
export function functionsOf(
  named: readonly NamedFunction[],
  scope: ModuleScope,
): { readonly found: ReadonlyMap<string, ProgramFunction>; readonly tables: Program["tables"] } {
  const found = new Map<string, ProgramFunction>();
  const tables: number[][] = [];
  for (const { name, value, operands } of named) {
    const { state, collected } = opened(scope, tables);
    const read = orNull(() => {
      const given = Array.from({ length: operands }, () => number({ op: "local", local: state.local() }));
      const result = asNumeric(state.call(scope.nodeOf(value), MODULE, given));
      return { parameters: operands, locals: collected.locals(), body: collected.steps(), result };
    });
    if (read !== null) found.set(name, read);
  }
  return { found, tables };
}

const MODULE: Names = { own: new Map(), outer: null };
const isNumber = ({ kind }: Known): boolean => kind === "number" || kind === "whole" || kind === "constant";

function opened(scope: ModuleScope, tables: number[][] = []): { state: Reading; collected: Collector } {
  const collected = collector(tables);
  const state: Reading = {
    ...collected.reading,
    scope,
    value: (expression, names, frame) => readExpression(state, expression, names, frame),
    run: (statement, names, frame) => readStatement(state, statement, names, frame),
    call: (node, names, operands) => readCall(state, node, names, operands),
    bind: (pattern, value, names, frame) => bindPattern(state, pattern, value, names, frame),
  };
  return { state, collected };
}

function orNull<T>(read: () => T): T | null {
  try {
    return read();
  } catch (error) {
    if (error instanceof NotAProgram) return null;
    throw error;
  }
}
