import { evaluateOnce } from "../evaluator/evaluate-once.ts";
import { BLOCK_TRIALS } from "../random/block.ts";
import { withColumns } from "../random/block-generator.ts";
import type { TrialSource } from "./batch.ts";
import { drawBlock, openDraws } from "./draw.ts";

/**
 * Evaluates trials one after the other by the plain path: to find the one for which a model ends its thread or never
 * returns.
 *
 * @param first a multiple of the trials of a block
 * @param before is given each trial and its inputs, in the model's order, and says whether it is evaluated
 */
export function evaluateOneByOne(
  source: TrialSource,
  first: number,
  count: number,
  before: (trial: number, inputs: readonly number[]) => boolean,
): void {
  const { model } = source;
  const names = Object.keys(model.inputs);
  const draws = openDraws(source);
  for (let done = 0; done < count; done += BLOCK_TRIALS) {
    const size = Math.min(BLOCK_TRIALS, count - done);
    withColumns(names.length, (columns) => {
      drawBlock(draws, columns, (first + done) / BLOCK_TRIALS, size);
      for (let i = 0; i < size; i++) {
        const inputs = columns.map((column) => column[i]!);
        if (!before(first + done + i, inputs)) continue;
        try {
          evaluateOnce(model, Object.fromEntries(names.map((name, at) => [name, inputs[at]!])), first + done + i);
        } catch {
          // A trial for which the model is undefined is not what ends a thread.
        }
      }
    });
  }
}
