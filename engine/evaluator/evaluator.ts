import type { Model } from "../model.ts";
import { evaluateOnce } from "./evaluate-once.ts";
import { trialObjects } from "./trial-object.ts";
import { withProgram, type Evaluator } from "./with-program.ts";

/**
 * The evaluator of a model: a loop generated for its names, once.
 *
 * Generated code has a separate call site and object shape for each model. In a generic loop all models share them, and
 * after a second model has run, the engine's inline caches are invalid: measured with 10⁶ trials of 12 inputs, 22 ms
 * against 195 ms. If a page forbids generated code, the generic loop gives identical values, bit for bit.
 *
 * A model that is to be had as a program goes over to it (engine/native).
 */
export function evaluatorOf(model: Model): Evaluator {
  return withProgram(plainEvaluatorOf(model), model);
}

/** The evaluator in generated code alone: for blocks in which many trials have no result, of which it finds the first. */
export function plainEvaluatorOf(model: Model): Evaluator {
  const names = [...Object.keys(model.inputs), "", ...Object.keys(model.measurands)].join();
  const found = evaluators.get(model.evaluate);
  if (found?.names === names) return found.evaluator;
  let made: Evaluator;
  try {
    made = throwing(generate(model), model);
  } catch (cause) {
    if (!(cause instanceof EvalError)) throw cause;
    made = genericEvaluator(model);
  }
  evaluators.set(model.evaluate, { names, evaluator: made });
  return made;
}

/** By the model's function: a model from a file is declared again for each run, with the same function. */
const evaluators = new WeakMap<Model["evaluate"], { readonly names: string; readonly evaluator: Evaluator }>();
let generated = 0;

/**
 * An evaluator for a model that may throw: an exception loses the position in the generated loop, so the generic one
 * finds the trial.
 */
const throwing =
  (evaluator: Evaluator, model: Model): Evaluator =>
  (columns, outputs, count) => {
    try {
      return evaluator(columns, outputs, count);
    } catch (cause) {
      const failed = genericEvaluator(model)(columns, outputs, count);
      // A model that throws once but not again is not a function of its inputs.
      if (failed < 0) throw cause;
      return failed;
    }
  };

function generate(model: Model): Evaluator {
  const inputs = Object.keys(model.inputs);
  const measurands = Object.keys(model.measurands);
  // Names are plain identifiers (defineModel checks), so they can stand in source text.
  const columns = inputs.map((_, i) => `c${i} = columns[${i}]`).join(", ");
  const outputs = measurands.map((_, i) => `o${i} = outputs[${i}]`).join(", ");
  const load = inputs.map((name, i) => `x.${name} = c${i}[i];`).join(" ");
  const keep = (value: string, i: number): string =>
    `const v${i} = ${value}; o${i}[i] = v${i}; if (typeof v${i} !== "number" || v${i} - v${i} !== 0) return i;`;
  const fieldsOf = measurands.map((name, i) => keep(`y.${name}`, i)).join(" ");
  // A number has its own branch: a type check shared with the fields would box it at every trial.
  const store =
    measurands.length === 1
      ? `if (typeof y === "number") { o0[i] = y; if (y - y !== 0) return i; } else { ${fieldsOf} }`
      : fieldsOf;
  // The number makes the texts of two models differ: the engine shares type feedback between equal texts.
  generated += 1;
  const source = `"use strict"; // ${generated}
    return (columns, outputs, count) => {
      const ${columns};
      const ${outputs};
      for (let i = 0; i < count; i++) { ${load} const y = model.evaluate(x); ${store} }
      return -1;
    };`;
  return new Function("model", "x", source)(model, trialObjects(model.inputs)()) as Evaluator;
}

/** The plain evaluator: the reference for the generated one. */
export function genericEvaluator(model: Model): Evaluator {
  const inputs = Object.keys(model.inputs);
  const measurands = Object.keys(model.measurands);
  return (columns, outputs, count) => {
    for (let i = 0; i < count; i++) {
      const x = Object.fromEntries(inputs.map((name, j) => [name, columns[j]![i]!]));
      try {
        const values = evaluateOnce(model, x);
        measurands.forEach((name, j) => (outputs[j]![i] = values[name]!));
      } catch {
        return i;
      }
    }
    return -1;
  };
}
