import { evaluatorOf, plainEvaluatorOf } from "../../../../engine/evaluator/evaluator.ts";
import { prepare, readStudy, type Model } from "../../../../engine/index.ts";
import { openDraws, drawBlock } from "../../../../engine/trials/draw.ts";
import { withColumns } from "../../../../engine/random/block-generator.ts";
import { BLOCK_TRIALS } from "../../../../engine/random/block.ts";
import { ratiosOf } from "../arithmetic.ts";
import { row, type Row } from "../row.ts";

/** Blocks that are not counted: by then a model runs as a program, and both ways are compiled. */
const WARMING = 2000;
/** Blocks of either way within a round, taken by turns. */
const EACH = 200;

export interface Workload {
  readonly name: string;
  readonly model: Model;
  readonly document: object;
}

/** Least times of a block in each round, in nanoseconds a trial: what disturbs the machine only adds to it. */
function leastOf(
  workloads: readonly Workload[],
  rounds: number,
): { readonly plain: number[]; readonly program: number[] }[] {
  return workloads.map(({ model, document }) => {
    const { source } = prepare(model, readStudy(document));
    const inputs = Object.keys(source.model.inputs).length;
    const outputs = Object.keys(source.model.measurands).map(() => new Float64Array(BLOCK_TRIALS));
    const ways = [plainEvaluatorOf(source.model), evaluatorOf(source.model)];
    const found = { plain: [] as number[], program: [] as number[] };
    withColumns(inputs + 1, (columns) => {
      drawBlock(openDraws(source), columns, 0, BLOCK_TRIALS);
      for (let round = -1; round < rounds; round++) {
        const least = [Infinity, Infinity];
        for (let i = 0; i < (round < 0 ? WARMING : EACH); i++)
          ways.forEach((evaluate, which) => {
            const start = performance.now();
            evaluate(columns, outputs, BLOCK_TRIALS);
            least[which] = Math.min(least[which]!, performance.now() - start);
          });
        if (round < 0) continue;
        found.plain.push((1e6 * least[0]!) / BLOCK_TRIALS);
        found.program.push((1e6 * least[1]!) / BLOCK_TRIALS);
      }
    });
    return found;
  });
}

/**
 * Models alone, as programs and by the plain path, over the columns of one block.
 *
 * @param onePiece W1's model with the functions it imports written out
 */
export function measurePrograms(workloads: readonly Workload[], onePiece: Workload, rounds: number): Row[] {
  const times = leastOf([...workloads, onePiece], rounds);
  const how = `one thread, blocks by turns, least of ${EACH} in a round, median of ${rounds} rounds`;
  const rows = workloads.map(({ name }, i) => {
    const { plain, program } = times[i]!;
    const spread = ratiosOf(program, plain);
    const [now, before] = [program, plain].map((ns) => ns.toSorted((a, b) => a - b)[0]!.toFixed(1));
    return row("programs", `${name}: the model as a program over the plain path`, "≤0.5", spread.median, {
      spread,
      unit: "×",
      note: `${now} ns a trial, ${before} plain; ${how}`,
    });
  });
  const pieces = ratiosOf(times[0]!.program, times.at(-1)!.program);
  return [
    ...rows,
    row("programs", "W1: a model that calls functions it imports over the same in one piece", "≤1.1", pieces.median, {
      spread: pieces,
      unit: "×",
      note: how,
    }),
  ];
}
