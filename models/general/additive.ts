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
import { conversionBetween, provideProgram, type Numeric, type Program } from "../../engine/internal.ts";
import { objectAt, statedQuantityAt, textAt } from "../stated-quantity.ts";

/**
 * Y = Σ cᵢ·Xᵢ: the model of a laboratory whose budget is a table. The study names the terms and their coefficients.
 */
export const additive: ModelFamily = {
  id: "additive",
  title: "Sum of terms with coefficients",
  source: "JCGM 101:2008, 9.2; the usual form of an uncertainty budget table",
  parameters: {
    coefficients: "The sensitivity coefficient of each input, by input name: { length: 1, thermal: -0.5 }",
    measurand:
      "What the sum is: { name, symbol, meaning, unit, difference }; name defaults to result; difference: true for a difference of temperatures in °C",
    terms: "Optional: symbol, meaning and unit of each input, by input name",
  },
  example: { coefficients: { length: 1, thermal: -0.5 } },
  build(parameters): Model {
    for (const name of Object.keys(parameters)) {
      if (!Object.hasOwn(this.parameters, name))
        refuse(`parameters.${name}`, parameters[name], `one of ${Object.keys(this.parameters).join(", ")}`);
    }
    const coefficients = readCoefficients(parameters["coefficients"]);
    const stated = parameters["measurand"] ?? {};
    const measurand = statedQuantityAt("parameters.measurand", stated, ["name"]);
    const output = textAt("parameters.measurand.name", (stated as { readonly name?: unknown }).name) ?? "result";
    const terms = objectAt("parameters.terms", parameters["terms"] ?? {}, EACH_INPUT);
    const unit = measurand.unit ?? "1";
    const names = Object.keys(coefficients);
    const termNamed = (name: string): Quantity =>
      termOf(name, Object.hasOwn(terms, name) ? terms[name] : undefined, unit);
    for (const name of Object.keys(terms)) {
      if (!names.includes(name))
        refuse(`parameters.terms.${name}`, name, `a name among the coefficients: ${names.join(", ")}`);
    }
    for (const name of names) requireConverted(name, coefficients[name]!, termNamed(name).unit, unit);
    const factors = names.map((name) => coefficients[name]!);
    const model = defineModel({
      id: "additive",
      title: this.title,
      equation: equationOf(
        textAt("parameters.measurand.symbol", measurand["symbol"]) ?? "y",
        names.map((name) => termNamed(name).symbol),
        factors,
      ),
      ...(this.source === undefined ? {} : { source: this.source }),
      toleranceSpecifications: { iec60751: classTolerance },
      measurands: {
        [output]: { symbol: "y", meaning: "sum of the terms", unit, ...measurand },
      },
      inputs: Object.fromEntries(names.map((name) => [name, termNamed(name)])),
      evaluate: (x) => {
        let sum = 0;
        for (let i = 0; i < names.length; i++) sum += factors[i]! * x[names[i]!]!;
        return sum;
      },
    }) as Model;
    provideProgram(model.evaluate, () => sumOf(names, factors, output));
    return model;
  },
};

/** The loop of `evaluate` as a program. */
const sumOf = (names: readonly string[], factors: readonly number[], output: string): Program => ({
  locals: 1,
  body: [
    { step: "set", local: 0, value: { op: "number", value: 0 } },
    ...names.map((name, i) => ({ step: "set", local: 0, value: withTerm(name, factors[i]!) }) as const),
  ],
  outputs: { [output]: { op: "local", local: 0 } },
  tables: [],
  functions: [],
});

const withTerm = (name: string, factor: number): Numeric => ({
  op: "add",
  left: { op: "local", local: 0 },
  right: { op: "mul", left: { op: "number", value: factor }, right: { op: "input", name, otherwise: null } },
});

const EACH_INPUT = "an object with a field for each input";

function readCoefficients(value: unknown): Record<string, number> {
  const object = objectAt("parameters.coefficients", value, EACH_INPUT);
  const problems: Problem[] = Object.entries(object)
    .filter(([, c]) => typeof c !== "number" || !Number.isFinite(c))
    .map(([name, c]) => ({ place: `parameters.coefficients.${name}`, value: show(c), accepted: "a finite number" }));
  if (Object.keys(object).length === 0) {
    problems.push({
      place: "parameters.coefficients",
      value: "none",
      accepted: "a coefficient for at least one input",
    });
  }
  if (problems.length > 0) throw new InputError(problems);
  return object as Record<string, number>;
}

/** A coefficient of ±1 converts nothing: a term in a multiple of the measurand's unit would be added as it is. */
function requireConverted(name: string, coefficient: number, termUnit: string, unit: string): void {
  if (Math.abs(coefficient) !== 1) return;
  const factor = conversionBetween(termUnit, unit, true)?.factor ?? 1;
  if (factor !== 1)
    refuse(
      `parameters.coefficients.${name}`,
      `${coefficient} for a term in ${termUnit} of a sum in ${unit}`,
      `a coefficient that converts: ${coefficient * factor} ${unit}/${termUnit}`,
    );
}

function termOf(name: string, value: unknown, unit: string): Quantity {
  return { symbol: name, meaning: name, unit, ...statedQuantityAt(`parameters.terms.${name}`, value ?? {}) };
}

function equationOf(result: string, symbols: readonly string[], factors: readonly number[]): string {
  const terms = symbols.map((symbol, i) => {
    const factor = Math.abs(factors[i]!) === 1 ? "" : `${Math.abs(factors[i]!)}·`;
    const sign = factors[i]! < 0 ? "−" : i === 0 ? "" : "+";
    return i === 0 ? `${sign}${factor}${symbol}` : `${sign} ${factor}${symbol}`;
  });
  return `${result} = ${terms.join(" ")}`;
}
