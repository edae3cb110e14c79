import { ModelError } from "../errors.ts";
import { BLOCK_TRIALS } from "../random/block.ts";
import { drawBlock, openDraws, type DrawSource, type GroupDraw } from "./draw.ts";
import type { Evaluator } from "../evaluator/with-program.ts";

/** Blocks drawn in place of one block's undefined trials before the model counts as undefined altogether. */
const MOST_SPARES = 100;

/**
 * Opens an evaluation that leaves out the trials for which the model is undefined: each is replaced by the next defined
 * trial of a spare block, from streams of its own. What is drawn is then the joint distribution of the inputs given that
 * the model is defined, identical, bit for bit, on any thread.
 *
 * @param withInputs the inputs of a trial that takes another's place are written too: without them only its outputs are
 * @returns a function that evaluates a block and returns how many trials were left out
 * @throws {ModelError} from that function: a model that is undefined nearly everywhere
 */
export function openLeavingOut(
  source: DrawSource,
  evaluate: Evaluator,
  withInputs = false,
): (columns: readonly Float64Array[], outputs: readonly Float64Array[], block: number, count: number) => number {
  const spares: GroupDraw[][] = [];
  const spareColumns = Object.keys(source.model.inputs).map(() => new Float64Array(BLOCK_TRIALS));
  return (columns, outputs, block, count) => {
    const missing = undefinedTrials(evaluate, columns, outputs, count);
    if (missing.length === 0) return 0;
    const spareOutputs = outputs.map(() => new Float64Array(BLOCK_TRIALS));
    let leftOut = missing.length;
    let filled = 0;
    for (let attempt = 0; filled < missing.length; attempt++) {
      if (attempt === MOST_SPARES) {
        throw new ModelError(
          `the model is undefined for all but ${filled} of ${filled + leftOut} trials; expected a model that is defined for more than one in a hundred`,
          null,
          {},
        );
      }
      const draws = (spares[attempt] ??= openDraws(source, ` in place of undefined ${attempt + 1}`));
      drawBlock(draws, spareColumns, block, BLOCK_TRIALS);
      const bad = new Set(undefinedTrials(evaluate, spareColumns, spareOutputs, BLOCK_TRIALS));
      for (let t = 0; t < BLOCK_TRIALS && filled < missing.length; t++) {
        if (bad.has(t)) leftOut += 1;
        else {
          for (let j = 0; j < outputs.length; j++) outputs[j]![missing[filled]!] = spareOutputs[j]![t]!;
          if (withInputs) spareColumns.forEach((spare, j) => (columns[j]![missing[filled]!] = spare[t]!));
          filled += 1;
        }
      }
    }
    return leftOut;
  };
}

/** Trials whose outputs are not all finite numbers, or for which the model throws. */
function undefinedTrials(
  evaluate: Evaluator,
  columns: readonly Float64Array[],
  outputs: readonly Float64Array[],
  count: number,
): number[] {
  const found: number[] = [];
  for (let from = 0; from < count;) {
    const rest = (array: Float64Array): Float64Array => array.subarray(from, count);
    const failed = evaluate(columns.map(rest), outputs.map(rest), count - from);
    if (failed < 0) break;
    found.push(from + failed);
    from += failed + 1;
  }
  return found;
}
