// Shapley values by input, from every subset of the inputs of which a budget overlooks something.
import { prepare, readStudy, type Model } from "../../../engine/index.ts";
import { assembleRecord, Accumulation, openTrials } from "../../../engine/internal.ts";
import { symmetricOf } from "../../../engine/convolution/sum-distribution.ts";
import { overlookedIn } from "../../../engine/explanation/twin-columns.ts";
import { exactMoves, type TermMove } from "../../../engine/explanation/exact-moves.ts";
import { exactLinearised } from "../../../engine/prepared/exact-linearised.ts";

type Pair = readonly [number, number];

export interface ByInput {
  /** What the engine finds. */
  readonly found: readonly TermMove[];
  /** The same terms' values from all subsets of the terms of one cause, the other cause let in or not, by definition. */
  readonly byDefinition: readonly Pair[];
  /** Of the linear budget. */
  readonly standardUncertainty: number;
}

/**
 * The value of a term of one cause: its move averaged over all orders in which the causes are let in one after the other,
 * and the terms of each cause in any order (G. Owen, 1977: values of games with a priori unions; citation from memory).
 *
 * @param cause whose terms
 */
export function byInput(model: Model, document: object, measurand: string, cause: TermMove["cause"]): ByInput {
  const prepared = prepare(model, readStudy({ ...document, trials: 20_000 }));
  const draw = openTrials(prepared.source);
  const gathered = new Accumulation(prepared);
  for (let count = gathered.next; count > 0; count = gathered.next) gathered.add(draw(gathered.trials, count));
  const record = assembleRecord(prepared, gathered).measurands[measurand]!;
  const exact = exactLinearised(prepared, measurand);
  const moves = exactMoves(prepared, measurand, record);
  if (exact.kind === "unavailable" || moves === null) throw new Error(`${measurand}: got no exact distribution`);
  const causes = exact.terms.map(({ inputs }) =>
    inputs
      .map((input) => overlookedIn(prepared.knowledge[input]!, prepared.study.inputs[input]!.distribution))
      .find((one) => one !== null),
  );
  const own = causes.flatMap((one, place) => (one === cause ? [place] : []));
  const others = causes.flatMap((one, place) => (one != null && one !== cause ? [place] : []));
  const values = ([false, true] as const).map((otherIn) =>
    Array.from({ length: 1 << own.length }, (_, set): Pair => {
      const twins = [...own.filter((_place, i) => !(set & (1 << i))), ...(otherIn ? [] : others)];
      return symmetricOf(exact.swapped(new Set(twins)), prepared.coverage.probability);
    }),
  );
  const n = own.length;
  const factorial = (k: number): number => (k < 2 ? 1 : k * factorial(k - 1));
  return {
    standardUncertainty: record.linear.standardUncertainty,
    found: moves.terms.filter((term) => term.cause === cause),
    byDefinition: own.map((_place, i): Pair => {
      const sum: [number, number] = [0, 0];
      for (const intervals of values) {
        for (let set = 0; set < 1 << n; set++) {
          if (set & (1 << i)) continue;
          const size = set.toString(2).replaceAll("0", "").length;
          const weight = (factorial(size) * factorial(n - size - 1)) / factorial(n) / 2;
          for (const end of [0, 1] as const)
            sum[end] += weight * (intervals[set | (1 << i)]![end] - intervals[set]![end]);
        }
      }
      return sum;
    }),
  };
}

/** The greatest move among these, of either endpoint. */
export const largestOf = (moves: readonly Pair[]): number => Math.max(...moves.flat().map(Math.abs), Number.MIN_VALUE);
