import type { Linearised } from "../convolution/linearised.ts";
import { oneSwapped } from "../convolution/one-swapped.ts";
import { symmetricOf } from "../convolution/sum-distribution.ts";
import type { Interval } from "../coverage/coverage-interval.ts";
import type { Cause, EndMoves } from "../record/explanation.ts";
import type { MeasurandFigures } from "../record/figures.ts";
import { exactLinearised } from "../prepared/exact-linearised.ts";
import type { Prepared } from "../prepared/prepare.ts";
import { bitOf } from "./compared-propagations.ts";
import { CAUSES } from "./causes.ts";
import { minus, shapley } from "./shapley.ts";
import { overlookedIn, type Overlooked } from "./twin-columns.ts";

/** The intervals of one measurand with each set of active causes, without the scatter of trials. */
export interface ExactMoves {
  /** By set of causes: interval at the study's coverage. */
  readonly intervals: readonly Interval[];
  /** Each term of which the linear budget overlooks something: its part of that cause's Shapley value. */
  readonly terms: readonly TermMove[];
}

/** How far the endpoints move by what the linear budget overlooks in one term. */
export interface TermMove {
  readonly cause: "shape" | "degreesOfFreedom";
  /** The term's inputs: more than one where they depend on one another. */
  readonly inputs: readonly string[];
  readonly move: EndMoves;
}

/**
 * The linearised model's distribution is known with any of its inputs normal instead; what is left between it and the full
 * model is known from paired trials. The curvature's move is the same whatever else is let in: it is measured with the
 * stated distributions.
 *
 * @returns `null` where the distribution of the linearised model is not to be had, or no paired trials are
 */
export function exactMoves(prepared: Prepared, name: string, { paired }: MeasurandFigures): ExactMoves | null {
  if (paired?.kind !== "figures") return null;
  const exact = exactLinearised(prepared, name);
  if (exact.kind === "unavailable") return null;
  const { coverage, linear } = prepared;
  const { estimate, standardUncertainty: u } = linear[name]!;
  const causes = causesOf(prepared, exact);
  const intervalOf = (stated: (place: number) => boolean): Interval => {
    const twins = causes.flatMap((cause, place) => (cause === null || stated(place) ? [] : [place]));
    const [low, high] =
      twins.length === 1
        ? oneSwapped(exact, twins[0]!, u, coverage.probability).interval
        : symmetricOf(twins.length === 0 ? exact.distribution : exact.swapped(new Set(twins)), coverage.probability);
    return [estimate + low, estimate + high];
  };
  const full = intervalOf(() => true);
  const bend: Interval = [paired.interval[0] - full[0], paired.interval[1] - full[1]];
  const bent = bitOf("curvature");
  const linearOnes = new Map<number, Interval>();
  for (let set = 0; set < 1 << CAUSES.length; set++) {
    if (!(set & bent))
      linearOnes.set(
        set,
        intervalOf((place) => (set & bitOf(causes[place] as Cause)) !== 0),
      );
  }
  const intervals = Array.from({ length: 1 << CAUSES.length }, (_, set): Interval => {
    const [low, high] = linearOnes.get(set & ~bent)!;
    return set & bent ? [low + bend[0], high + bend[1]] : [low, high];
  });
  const terms = (["shape", "degreesOfFreedom"] as const).flatMap((cause) =>
    addingUp(termMoves(exact, causes, cause, intervalOf), shapley(intervals, bitOf(cause))),
  );
  return { intervals, terms };
}

/** What the linear budget overlooks in each term. */
function causesOf({ knowledge, study }: Prepared, { terms }: Linearised): Overlooked[] {
  return terms.map(({ inputs }) => {
    const found = inputs.map((input) => overlookedIn(knowledge[input]!, study.inputs[input]!.distribution));
    return found.find((cause) => cause !== null) ?? null;
  });
}

/**
 * The mean of each term's move let in first, before anything, and last, after everything. That is its Shapley value as far
 * as terms act together in twos; what three and more do together is shared out by `addingUp`.
 */
function termMoves(
  { terms }: Linearised,
  causes: readonly Overlooked[],
  of: TermMove["cause"],
  intervalOf: (stated: (place: number) => boolean) => Interval,
): TermMove[] {
  const [none, all] = [intervalOf(() => false), intervalOf(() => true)];
  return terms.flatMap(({ inputs }, place): TermMove[] => {
    if (causes[place] !== of) return [];
    const first = minus(
      intervalOf((other) => other === place),
      none,
    );
    const last = minus(
      all,
      intervalOf((other) => other !== place),
    );
    return [{ cause: of, inputs, move: [(first[0] + last[0]) / 2, (first[1] + last[1]) / 2] }];
  });
}

/** The moves made to add up to their cause's: what is missing goes to each by the size of its move. */
function addingUp(moves: readonly TermMove[], whole: EndMoves): TermMove[] {
  const missing = ([0, 1] as const).map((end) => {
    const sum = moves.reduce((total, { move }) => total + move[end], 0);
    const size = moves.reduce((total, { move }) => total + Math.abs(move[end]), 0);
    return size === 0 ? 0 : (whole[end] - sum) / size;
  });
  const completed = (move: EndMoves, end: 0 | 1): number => move[end] + missing[end]! * Math.abs(move[end]);
  return moves.map((one) => ({ ...one, move: [completed(one.move, 0), completed(one.move, 1)] }));
}
