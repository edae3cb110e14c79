import { classTolerance } from "../platinum/class-tolerance.ts";
import {
  defineModel,
  InputError,
  refuse,
  show,
  type Model,
  type ModelFamily,
  type Problem,
  type Quantity,
} from "../../engine/index.ts";
import { isQuantityName } from "../../engine/internal.ts";
import type { Program } from "../../engine/internal.ts";
import { inputName } from "../evaluation/text/quantity-name.ts";
import { objectAt, statedQuantityAt, type StatedQuantity } from "../stated-quantity.ts";
import { unitProblems } from "./dimensions.ts";
import { evaluation } from "./evaluate.ts";
import { algebra } from "./functions.ts";
import { loadEquationReader } from "./grammar.ts";
import { parseEquations } from "./parse.ts";
import { programOfEquations, type AlgebraPrograms } from "./program.ts";
import { equationText } from "./plain-text.ts";
import { evaluateScript } from "./script.ts";
import { quantitiesOf, type Equation, type EquationProblem, type Place } from "./tree.ts";

/** A model that can also be had as a script, for where text may be made into a function: as fast as one written by hand. */
export interface ScriptedModel extends Model {
  /** Text of a function that takes `functions` and gives `evaluate`. Made from a checked tree, never from typed text. */
  readonly script: string;
  readonly functions: typeof algebra;
  /** The same as a program, where the functions are to be had as programs. */
  program(algebra: AlgebraPrograms): Program | null;
}

export const isScripted = (model: Model): model is ScriptedModel => "script" in model;

const FIELDS = {
  equation:
    "The equation, in plain algebra: e = t(R_X, R_0) − t_S. Several lines define quantities that the next lines use; those that no line uses are the results",
  quantities:
    "Optional: { symbol, meaning, unit, difference } of each quantity, by the name that the study's inputs and the record use",
};

/** A model whose equation the study states as text. */
export const typedEquation: ModelFamily = {
  id: "equation",
  title: "Typed equation",
  parameters: FIELDS,
  load: loadEquationReader,
  example: { equation: "ρ = m / V" },
  build(parameters): ScriptedModel {
    const { text, stated } = readParameters(parameters);
    return modelOf(text, stated);
  },
};

/** What a study states for its equation: the text, and quantities by name. */
export interface EquationParameters {
  readonly text: string;
  readonly stated: ReadonlyMap<string, StatedQuantity>;
}

/** @throws {InputError} naming the parameter that cannot be used */
export function readParameters(parameters: Readonly<Record<string, unknown>>): EquationParameters {
  for (const name of Object.keys(parameters))
    if (!Object.hasOwn(FIELDS, name))
      refuse(`parameters.${name}`, parameters[name], `one of ${Object.keys(FIELDS).join(", ")}`);
  const text = parameters["equation"];
  if (typeof text !== "string") return refuse("parameters.equation", text, "the equation as a text");
  return { text, stated: readQuantities(parameters["quantities"]) };
}

function modelOf(text: string, stated: ReadonlyMap<string, StatedQuantity>): ScriptedModel {
  const checked = checkEquation(text, stated);
  if (!checked.ok) throw new InputError(checked.problems.map((problem) => problemIn(text, problem)));
  const { equations, inputs, measurands, symbols } = checked;
  const symbolOf = (name: string): string => symbols.get(name) ?? name;
  const describedAs = (name: string): Quantity => ({
    symbol: symbolOf(name),
    meaning: symbolOf(name),
    unit: "1",
    ...stated.get(name),
  });
  const model = defineModel({
    id: "equation",
    title: "Typed equation",
    equation: equationText(equations, symbolOf),
    source: "stated in the study",
    toleranceSpecifications: { iec60751: classTolerance },
    measurands: Object.fromEntries(measurands.map((name) => [name, describedAs(name)])),
    inputs: Object.fromEntries(inputs.map((name) => [name, describedAs(name)])),
    evaluate: evaluateOf(equations, measurands),
  });
  return Object.freeze({
    ...model,
    script: evaluateScript(equations, measurands),
    functions: algebra,
    program: (programs: AlgebraPrograms) => programOfEquations(equations, measurands, programs),
  });
}

/** The trees, walked: what `script` does without text that is made into a function. */
function evaluateOf(equations: readonly Equation[], measurands: readonly string[]): Model["evaluate"] {
  const steps = equations.map(({ name, expression }) => [name, evaluation(expression)] as const);
  if (steps.length === 1) return steps[0]![1] as Model["evaluate"];
  return (x) => {
    const values: Record<string, number> = { ...x };
    for (const [name, evaluate] of steps) values[name] = evaluate(values);
    return measurands.length === 1
      ? (values[measurands[0]!]! as never)
      : Object.fromEntries(measurands.map((name) => [name, values[name]!]));
  };
}

export type CheckedEquation =
  | {
      readonly ok: true;
      readonly equations: readonly Equation[];
      /** Names of the inputs, in the order in which the text has them, and of the results. */
      readonly inputs: readonly string[];
      readonly measurands: readonly string[];
      /** Symbols of all quantities by name: as they are stated, else as they stand in the text. */
      readonly symbols: ReadonlyMap<string, string>;
    }
  | { readonly ok: false; readonly problems: readonly EquationProblem[] };

/**
 * Reads and checks the text of an equation: its algebra, its names against the quantities that are stated, the order
 * of its lines, and its units. All problems are told, each with its place in the text.
 *
 * @param stated quantities by name; in the text each may stand by its name or its symbol. A symbol that is not stated gets a
 *   name in Latin letters if it has others
 */
export function checkEquation(text: string, stated: ReadonlyMap<string, StatedQuantity>): CheckedEquation {
  const parsed = parseEquations(text);
  if (!parsed.ok) return parsed;
  const { names, symbols } = namesIn(parsed.equations, stated);
  const symbolOf = (name: string): string => symbols.get(name) ?? name;
  const equations = parsed.equations.map((equation) => named(equation, names));
  const problems: EquationProblem[] = [];
  const defined = new Map<string, Place>();
  const used = new Map<string, Place>();
  const every = new Set(equations.map(({ name }) => name));
  for (const { name, namePlace, expression } of equations) {
    for (const [read, place] of quantitiesOf(expression)) {
      if (every.has(read) && !defined.has(read))
        problems.push({
          place,
          got: `${symbolOf(read)} before the line that defines it`,
          expected: "a quantity of an earlier line",
        });
      if (!used.has(read)) used.set(read, place);
    }
    if (defined.has(name))
      problems.push({
        place: namePlace,
        got: `${symbolOf(name)} a second time`,
        expected: "one line for each quantity",
      });
    defined.set(name, namePlace);
  }
  for (const [name, place] of [...defined, ...used])
    if (!isQuantityName(name)) problems.push({ place, got: show(name), expected: unknownName(stated) });
  const inputs = [...used.keys()].filter((name) => !every.has(name));
  const unread = [...stated.keys()].filter((name) => !used.has(name) && !every.has(name));
  for (const name of unread)
    problems.push({
      place: { from: text.length, to: text.length },
      got: `no ${symbolOf(name)} in the equation`,
      expected: "every stated quantity",
    });
  if (inputs.length === 0 && problems.length === 0)
    problems.push({
      place: { from: 0, to: text.length },
      got: "no quantity on the right side",
      expected: "at least one input quantity",
    });
  const units = new Map([...stated].flatMap(([name, { unit }]) => (unit === undefined ? [] : [[name, unit] as const])));
  const unique = [...new Map(problems.map((problem) => [JSON.stringify(problem), problem])).values()];
  const all = unique.length > 0 ? unique : unitProblems(equations, units);
  if (all.length > 0) return { ok: false, problems: all };
  const measurands = [...every].filter((name) => !used.has(name));
  return { ok: true, equations, inputs, measurands, symbols };
}

const symbolIn = (stated: ReadonlyMap<string, StatedQuantity>, name: string): string =>
  stated.get(name)?.symbol ?? name;

const unknownName = (stated: ReadonlyMap<string, StatedQuantity>): string =>
  stated.size === 0
    ? "a name of letters, digits and _ that starts with a letter, or a quantity with this symbol"
    : `one of ${[...stated.keys()].map((name) => symbolIn(stated, name)).join(", ")}, or a name of letters, digits and _`;

interface Names {
  /** Names by what may stand in the text for them. */
  readonly names: ReadonlyMap<string, string>;
  /** Symbols by name. */
  readonly symbols: ReadonlyMap<string, string>;
}

/** Names of all quantities: those that are stated, and one in Latin letters for each other symbol that needs it. */
function namesIn(equations: readonly Equation[], stated: ReadonlyMap<string, StatedQuantity>): Names {
  const symbols = new Map([...stated].map(([name, { symbol }]) => [name, symbol ?? name]));
  const names = new Map([...symbols].map(([name, symbol]) => [symbol.replace(/[{}]/g, ""), name]));
  for (const name of stated.keys()) if (!names.has(name)) names.set(name, name);
  const written = new Set(equations.flatMap(({ name, expression }) => [name, ...quantitiesOf(expression).keys()]));
  const taken = new Set([...names.values(), ...written]);
  for (const symbol of written) {
    // What has Latin letters and is no name all the same is refused below.
    if (names.has(symbol) || !/\P{ASCII}/u.test(symbol)) continue;
    const name = inputName(symbol, symbols.size + 1, taken);
    names.set(symbol, name);
    symbols.set(name, symbol);
    taken.add(name);
  }
  return { names, symbols };
}

/** The equation with every symbol replaced by the quantity's name. */
function named(equation: Equation, names: ReadonlyMap<string, string>): Equation {
  const nameFor = (written: string): string => names.get(written) ?? written;
  const rename = (expression: Equation["expression"]): Equation["expression"] => {
    switch (expression.kind) {
      case "number":
        return expression;
      case "quantity":
        return { ...expression, name: nameFor(expression.name) };
      case "negative":
        return { ...expression, of: rename(expression.of) };
      case "operation":
        return { ...expression, left: rename(expression.left), right: rename(expression.right) };
      case "call":
        return { ...expression, operands: expression.operands.map(rename) };
    }
  };
  return { ...equation, name: nameFor(equation.name), expression: rename(equation.expression) };
}

/** A problem of the text as one of the study's, with the line and the character. */
function problemIn(text: string, { place, got, expected }: EquationProblem): Problem {
  const before = text.slice(0, place.from).split("\n");
  const line = before.length;
  const character = before.at(-1)!.length + 1;
  const where = text.includes("\n") ? `line ${line}, character ${character}` : `character ${character}`;
  return { place: "parameters.equation", value: `${got} at ${where}`, accepted: expected };
}

function readQuantities(value: unknown): ReadonlyMap<string, StatedQuantity> {
  if (value === undefined) return new Map();
  const place = "parameters.quantities";
  const stated = objectAt(place, value, "an object with symbol, meaning and unit of each quantity by name");
  return new Map(
    Object.entries(stated).map(([name, quantity]) => {
      if (!isQuantityName(name))
        refuse(
          `${place}.${name}`,
          name,
          "a name of letters, digits and _ that starts with a letter, 64 characters at most",
        );
      return [name, statedQuantityAt(`${place}.${name}`, quantity)];
    }),
  );
}
