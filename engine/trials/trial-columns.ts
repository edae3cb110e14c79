import { evaluatorOf, plainEvaluatorOf } from "../evaluator/evaluator.ts";
import { withColumns } from "../random/block-generator.ts";
import { BLOCK_TRIALS } from "../random/block.ts";
import { reportFailure, type TrialSource } from "./batch.ts";
import { drawBlock, openDraws } from "./draw.ts";
import { openLeavingOut } from "./leave-out.ts";

/** Trials one by one: each quantity's values in the order of the trials. */
export interface TrialColumns {
  /** One array for each input, in the model's order. */
  readonly inputs: readonly Float64Array[];
  /** One array for each measurand, in the model's order. */
  readonly measurands: readonly Float64Array[];
}

/**
 * Opens a study's trials with their inputs: those of `openTrials`, bit for bit.
 *
 * @returns draws `count` trials from `first` on, a multiple of the trials of a block
 * @throws {ModelError} from that function: the first trial whose output is not finite, with its inputs
 */
export function openTrialColumns(source: TrialSource): (first: number, count: number) => TrialColumns {
  const { model } = source;
  const inputs = Object.keys(model.inputs);
  const evaluate = evaluatorOf(model);
  const leavingOut = source.leavesOut ? openLeavingOut(source, plainEvaluatorOf(model), true) : null;
  const draws = openDraws(source);
  return (first, count) => {
    if (first % BLOCK_TRIALS !== 0) throw new RangeError(`trials are drawn from a multiple of ${BLOCK_TRIALS} on`);
    const found = {
      inputs: inputs.map(() => new Float64Array(count)),
      measurands: Object.keys(model.measurands).map(() => new Float64Array(count)),
    };
    withColumns(inputs.length, (columns) => {
      for (let done = 0; done < count; done += BLOCK_TRIALS) {
        const size = Math.min(BLOCK_TRIALS, count - done);
        const block = (first + done) / BLOCK_TRIALS;
        const outputs = found.measurands.map((array) => array.subarray(done, done + size));
        drawBlock(draws, columns, block, size);
        if (leavingOut !== null) leavingOut(columns, outputs, block, size);
        else {
          const failed = evaluate(columns, outputs, size);
          if (failed >= 0) reportFailure(model, inputs, columns, failed, first + done + failed);
        }
        found.inputs.forEach((array, i) => array.set(columns[i]!.subarray(0, size), done));
      }
    });
    return found;
  };
}
