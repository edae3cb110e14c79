import { ModelError } from "../errors.ts";
import type { Model } from "../model.ts";
import type { TrialSource } from "./batch.ts";
import { drawBlock, openDraws } from "./draw.ts";
import { outputsAt } from "../evaluator/evaluate-once.ts";

/** Trials that are evaluated twice. */
const TRIALS = 256;

/**
 * Evaluates some trials, and then the same ones in the opposite order: a model that draws random numbers of its own, reads
 * a clock or keeps something from one trial for the next gives other values, and no record of it would repeat.
 *
 * @throws {ModelError} a model whose value depends on anything but its inputs
 */
export function requirePure(model: Model, source: TrialSource): void {
  const names = Object.keys(model.inputs);
  const columns = names.map(() => new Float64Array(TRIALS));
  drawBlock(openDraws(source), columns, 0, TRIALS);
  const inputsOf = (trial: number): Record<string, number> =>
    Object.fromEntries(names.map((name, i) => [name, columns[i]![trial]!]));
  const first = Array.from({ length: TRIALS }, (_, trial) => valuesAt(model, inputsOf(trial)));
  for (let trial = TRIALS - 1; trial >= 0; trial--) {
    const inputs = inputsOf(trial);
    const again = valuesAt(model, inputs);
    if (again.every((value, i) => Object.is(value, first[trial]![i]))) continue;
    throw new ModelError(
      `model ${model.id} gave ${first[trial]!.join(", ")} at trial ${trial}, and ${again.join(", ")} when it was repeated after others; ` +
        "expected a value that depends on the inputs alone: no Math.random, no clock, nothing kept from trial to trial",
      trial,
      inputs,
    );
  }
}

/** The measurands, or NaN for each where the model throws: it does so again or is not pure. */
function valuesAt(model: Model, inputs: Readonly<Record<string, number>>): unknown[] {
  const names = Object.keys(model.measurands);
  try {
    const outputs = outputsAt(model, inputs);
    return names.map((name) =>
      typeof outputs === "object" && outputs !== null ? (outputs as Record<string, unknown>)[name] : outputs,
    );
  } catch {
    return names.map(() => Number.NaN);
  }
}
