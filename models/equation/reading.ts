import { InputError, type Quantity, type Study } from "../../engine/index.ts";
import { checkEquation, readParameters, typedEquation } from "./equation-model.ts";
import { loadEquationReader } from "./grammar.ts";
import { equationTexts } from "./plain-text.ts";
import type { Equation, EquationProblem } from "./tree.ts";
import { typescriptModel } from "./typescript.ts";

/** A typed equation that can be run, in every form in which it is shown or kept. */
export interface ReadEquation {
  readonly equations: readonly Equation[];
  /** Each equation in plain text, with the symbols of its quantities. */
  readonly texts: readonly string[];
  /** Input quantities by name, in the order of the text. */
  readonly inputs: Readonly<Record<string, Quantity>>;
  readonly measurands: Readonly<Record<string, Quantity>>;
  /** Symbols by the names of all quantities, those between inputs and results too. */
  readonly symbols: Readonly<Record<string, string>>;
  /** Symbols of inputs and results without a stated unit: where they stand, no dimension was checked. */
  readonly withoutUnit: readonly string[];
  /** The same model as a TypeScript file. */
  readonly typescript: { readonly file: string; readonly text: string };
}

export interface EquationReading {
  /** What is wrong, each with its place in the text; nothing if the equation can be run. */
  readonly problems: readonly EquationProblem[];
  /** `null` if something is wrong. */
  readonly read: ReadEquation | null;
}

/**
 * Reads an equation as a study states it.
 *
 * @param parameters those of a study whose model is a typed equation
 * @param title of the model that is saved as a TypeScript file; its words name the file
 * @throws {InputError} parameters that are not of a typed equation, or a quantity that is stated wrongly
 */
export async function readTypedEquation(
  parameters: Readonly<Record<string, unknown>>,
  title: string,
): Promise<EquationReading> {
  await loadEquationReader();
  const { text, stated } = readParameters(parameters);
  const checked = checkEquation(text, stated);
  if (!checked.ok) return { problems: checked.problems, read: null };
  const { equations, inputs, measurands, symbols } = checked;
  const model = typedEquation.build(parameters);
  const symbolOf = (name: string): string => symbols.get(name) ?? name;
  return {
    problems: [],
    read: {
      equations,
      texts: equationTexts(equations, symbolOf),
      inputs: model.inputs,
      measurands: model.measurands,
      symbols: Object.fromEntries(
        [...inputs, ...equations.map(({ name }) => name)].map((name) => [name, symbolOf(name)]),
      ),
      withoutUnit: [...inputs, ...measurands].filter((name) => stated.get(name)?.unit === undefined).map(symbolOf),
      typescript: typescriptModel(checked, model, title),
    },
  };
}

/** The typed equation of a study, or `null` if its model is another one or the equation of an earlier version cannot be read. */
export async function typedEquationOf({
  model,
  title,
  parameters = {},
}: Pick<Study, "model" | "title" | "parameters">): Promise<ReadEquation | null> {
  if (model !== typedEquation.id) return null;
  try {
    return (await readTypedEquation(parameters, title)).read;
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}
