import type { Model } from "../model.ts";
import { evaluateOnce } from "./evaluate-once.ts";
import { trialObjects } from "./trial-object.ts";

/**
 * Runs a model over `count` trials: `columns` holds the inputs in the model's order, `outputs` takes the measurands in
 * the model's order, one array each.
 *
 * @returns the first trial whose outputs are not all finite numbers, or −1
 */
export type Evaluator = (columns: readonly Float64Array[], outputs: readonly Float64Array[], count: number) => number;

/**
 * The evaluator of a model: a loop written out for its names, made once.
 *
 * Generated code gives each model a call site of its own, beside an object shape of its own; in a generic loop every
 * model shares both, and once a second one has run the engine's inline caches are lost: measured at 10⁶ trials of 12
 * inputs, 22 ms against 195 ms. Where a page forbids generated code the generic loop gives the same bits.
 */
export function evaluatorOf(model: Model): Evaluator {
  const names = [...Object.keys(model.inputs), "", ...Object.keys(model.measurands)].join();
  const found = evaluators.get(model.evaluate);
  if (found?.names === names) return found.evaluator;
  let made: Evaluator;
  try {
    made = generate(model);
  } catch (cause) {
    if (!(cause instanceof EvalError)) throw cause;
    made = genericEvaluator(model);
  }
  evaluators.set(model.evaluate, { names, evaluator: made });
  return made;
}

/** By the model's function: a file's model is declared anew for each run, with the same function. */
const evaluators = new WeakMap<Model["evaluate"], { readonly names: string; readonly evaluator: Evaluator }>();
let generated = 0;

function generate(model: Model): Evaluator {
  const inputs = Object.keys(model.inputs);
  const measurands = Object.keys(model.measurands);
  // Names are plain identifiers (defineModel checks), so they can stand in source text.
  const columns = inputs.map((_, i) => `c${i} = columns[${i}]`).join(", ");
  const outputs = measurands.map((_, i) => `o${i} = outputs[${i}]`).join(", ");
  const literal = staysInLoop(model);
  const load = literal
    ? `const x = { ${inputs.map((name, i) => `${name}: c${i}[i]`).join(", ")} };`
    : inputs.map((name, i) => `x.${name} = c${i}[i];`).join(" ");
  const store =
    measurands.length === 1
      ? `const v0 = typeof y === "number" ? y : y.${measurands[0]}; o0[i] = v0; if (typeof v0 !== "number" || v0 - v0 !== 0) return i;`
      : measurands
          .map((name, i) => `const v${i} = y.${name}; o${i}[i] = v${i}; if (typeof v${i} !== "number" || v${i} - v${i} !== 0) return i;`)
          .join(" ");
  // The number keeps the texts of two models apart: the engine would share what it learnt of equal ones.
  generated += 1;
  const source = `"use strict"; // ${generated}
    return (columns, outputs, count) => {
      const ${columns};
      const ${outputs};
      for (let i = 0; i < count; i++) { ${load} const y = model.evaluate(x); ${store} }
      return -1;
    };`;
  return new Function("model", ...(literal ? [] : ["x"]), source)(model, trialObjects(inputs)()) as Evaluator;
}

/** Longest text of a model that engines still build into the loop around it (V8: 460 bytecodes, about so many letters). */
const SHORT = 700;

/**
 * Whether a model is so short that an engine builds it into the loop, and does nothing with its argument but read its
 * fields. Then an object made anew each trial is never really made: measured at 10⁶ trials of 12 inputs, 16 ms against
 * 22 with one object for all, which is the quicker way (22 against 45) wherever the model is called.
 */
function staysInLoop(model: Model): boolean {
  const text = String(model.evaluate);
  const argument = /^(?:function\b)?[\s\w]*\(?\s*([A-Za-z]\w*)\s*\)?\s*(?:=>|\{)/.exec(text)?.[1];
  return argument !== undefined && text.length <= SHORT && !new RegExp(`\\b${argument}\\b(?!\\s*\\.\\s*\\w)(?!\\s*\\)?\\s*(?:=>|\\{))`).test(text);
}

/** The obvious evaluator: the reference that the generated one is checked against. */
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
