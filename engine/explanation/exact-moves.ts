import type { Linearised } from "../convolution/linearised.ts";
import { symmetricOf } from "../convolution/sum-distribution.ts";
import type { Interval } from "../coverage/coverage-interval.ts";
import type { Cause } from "../record/explanation.ts";
import type { MeasurandFigures } from "../record/figures.ts";
import { exactLinearised } from "../prepared/exact-linearised.ts";
import type { Prepared } from "../prepared/prepare.ts";
import { bitOf } from "./compared-propagations.ts";
import { CAUSES } from "./causes.ts";
import { overlookedIn, type Overlooked } from "./twin-columns.ts";

/** The intervals of one measurand with each set of active causes, without the scatter of trials. */
export interface ExactMoves {
  /** By set of causes: interval at the study's coverage. */
  readonly intervals: readonly Interval[];
  /** How far the shape of each input moves the endpoints: the mean of its move let in first and let in last. */
  readonly shapes: ReadonlyMap<string, number>;
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
  const { estimate } = linear[name]!;
  const causes = causesOf(prepared, exact);
  const intervalOf = (stated: (place: number) => boolean): Interval => {
    const twins = new Set(causes.flatMap((cause, place) => (cause === null || stated(place) ? [] : [place])));
    const [low, high] = symmetricOf(twins.size === 0 ? exact.distribution : exact.swapped(twins), coverage.probability);
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
  return {
    intervals: Array.from({ length: 1 << CAUSES.length }, (_, set): Interval => {
      const [low, high] = linearOnes.get(set & ~bent)!;
      return set & bent ? [low + bend[0], high + bend[1]] : [low, high];
    }),
    shapes: shapesOf(exact, causes, intervalOf),
  };
}

/** What the linear budget overlooks in each term. */
function causesOf({ knowledge, study }: Prepared, { terms }: Linearised): Overlooked[] {
  return terms.map(({ inputs }) => {
    const found = inputs.map((input) => overlookedIn(knowledge[input]!, study.inputs[input]!.distribution));
    return found.find((cause) => cause !== null) ?? null;
  });
}

function shapesOf(
  { terms }: Linearised,
  causes: readonly Overlooked[],
  intervalOf: (stated: (place: number) => boolean) => Interval,
): ReadonlyMap<string, number> {
  const [none, all] = [intervalOf(() => false), intervalOf(() => true)];
  return new Map(
    terms.flatMap(({ inputs }, place) => {
      if (causes[place] !== "shape") return [];
      const [first, rest] = [intervalOf((other) => other === place), intervalOf((other) => other !== place)];
      const moved = ([0, 1] as const).map((end) => Math.abs((first[end] - none[end] + (all[end] - rest[end])) / 2));
      return inputs.map((input) => [input, Math.max(...moved)] as const);
    }),
  );
}
