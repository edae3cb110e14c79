import { millikelvin, figure, ROUNDING, type Check } from "../check.ts";
import type { SurveyDescription } from "./description.ts";
import type { PairStep } from "./steps.ts";
import { movedDifference, swapDifference, type MeanDifference, type SwapDifference } from "./swap.ts";
import type { ZonePoint } from "./zone.ts";

/** How one position was compared with the reference position by one pair. */
export interface ZoneComparison extends SwapDifference {
  readonly position: string;
  readonly pair: readonly [string, string];
  readonly method: "swapped" | "moved";
  /** Steps of the description it rests on. */
  readonly steps: readonly number[];
}

/** What one pair's offset came out as, K. */
export interface OffsetDetermination {
  readonly pair: readonly [string, string];
  readonly offset: number;
  readonly standardUncertainty: number;
  readonly from: string;
}

export interface ZoneMap {
  readonly points: readonly ZonePoint[];
  readonly reference: ZonePoint;
  readonly comparisons: readonly ZoneComparison[];
  readonly offsets: readonly OffsetDetermination[];
  /** Positions that no pair of placements connects with the reference position. */
  readonly unresolved: readonly string[];
  readonly checks: readonly Check[];
}

/** Differences of every position from the reference position, from all pairs that give them. */
export function zoneMap(description: SurveyDescription, pairs: readonly PairStep[]): ZoneMap {
  const { positions, reference } = description;
  const comparisons = Object.keys(positions)
    .filter((position) => position !== reference)
    .flatMap((position) => comparisonsOf(position, reference, pairs));
  const offsets = offsetsOf(comparisons, pairs);
  const zero: ZonePoint = {
    ...placeOf(description, reference),
    difference: 0,
    standardUncertainty: 0,
    degreesOfFreedom: Infinity,
  };
  const found = Object.keys(positions)
    .filter((position) => position !== reference)
    .flatMap((position) => {
      const of = comparisons.filter((comparison) => comparison.position === position);
      return of.length === 0 ? [] : [{ ...placeOf(description, position), ...meanOf(of) }];
    });
  return {
    points: [zero, ...found],
    reference: zero,
    comparisons,
    offsets,
    unresolved: Object.keys(positions).filter(
      (position) => position !== reference && !found.some((point) => point.position === position),
    ),
    checks: offsetChecks(offsets),
  };
}

function placeOf({ positions }: SurveyDescription, position: string) {
  const { depth, radius, direction } = positions[position]!;
  return { position, depth, radius, direction: direction ?? null };
}

function comparisonsOf(position: string, reference: string, pairs: readonly PairStep[]): ZoneComparison[] {
  const comparisons: ZoneComparison[] = [];
  for (const names of pairNames(pairs)) {
    const ours = pairs.filter(({ difference }) => difference.first === names[0] && difference.second === names[1]);
    const stood = (first: string, second: string): PairStep[] =>
      ours.filter((pair) => pair.positions[0] === first && pair.positions[1] === second);
    const out = stood(position, reference);
    const back = stood(reference, position);
    const sideBySide = stood(reference, reference);
    const base = { position, pair: names };
    if (out.length > 0 && back.length > 0) {
      comparisons.push({
        ...base,
        ...swapDifference(average(out), average(back)),
        method: "swapped",
        steps: stepsOf(out, back),
      });
    } else if (sideBySide.length > 0 && out.length > 0) {
      comparisons.push({
        ...base,
        ...movedDifference(average(out), average(sideBySide)),
        method: "moved",
        steps: stepsOf(out, sideBySide),
      });
    } else if (sideBySide.length > 0 && back.length > 0) {
      // The second one moved: turn both differences round, then the offset back.
      const moved = movedDifference(turned(average(back)), turned(average(sideBySide)));
      comparisons.push({ ...base, ...moved, offset: -moved.offset, method: "moved", steps: stepsOf(back, sideBySide) });
    }
  }
  return comparisons;
}

const pairNames = (pairs: readonly PairStep[]): readonly (readonly [string, string])[] => {
  const names = new Map(
    pairs.map(({ difference: { first, second } }) => [JSON.stringify([first, second]), [first, second] as const]),
  );
  return [...names.values()];
};

const stepsOf = (...lists: readonly (readonly PairStep[])[]): number[] =>
  [...new Set(lists.flat().map(({ step }) => step))].sort((a, b) => a - b);

const turned = (difference: MeanDifference): MeanDifference => ({ ...difference, mean: -difference.mean });

/** Mean of a placement that was repeated. */
function average(pairs: readonly PairStep[]): MeanDifference {
  const parts = pairs.map(({ difference: { typeA } }) => typeA);
  return {
    mean: parts.reduce((sum, { mean }) => sum + mean, 0) / parts.length,
    ...together(parts),
  };
}

const meanOf = (comparisons: readonly ZoneComparison[]) => ({
  difference: comparisons.reduce((sum, { difference }) => sum + difference, 0) / comparisons.length,
  ...together(comparisons),
});

/** u and degrees of freedom of a plain mean of independent parts (JCGM 100, 5.1.2 and G.4.1). */
function together(parts: readonly { readonly standardUncertainty: number; readonly degreesOfFreedom: number }[]) {
  let variance = 0;
  let denominator = 0;
  for (const { standardUncertainty, degreesOfFreedom } of parts) {
    const square = (standardUncertainty / parts.length) * (standardUncertainty / parts.length);
    variance += square;
    denominator += (square * square) / degreesOfFreedom;
  }
  return {
    standardUncertainty: Math.sqrt(variance),
    degreesOfFreedom:
      denominator === 0
        ? parts.reduce((sum, part) => sum + part.degreesOfFreedom, 0)
        : (variance * variance) / denominator,
  };
}

function offsetsOf(comparisons: readonly ZoneComparison[], pairs: readonly PairStep[]): OffsetDetermination[] {
  const swapped = comparisons
    .filter(({ method }) => method === "swapped")
    .map(({ pair, offset, standardUncertainty, position }) => ({
      pair,
      offset,
      standardUncertainty,
      from: `swap at ${position}`,
    }));
  const sideBySide = pairs
    .filter(({ positions }) => positions[0] === positions[1])
    .map(({ difference: { first, second, typeA }, positions, step }) => ({
      pair: [first, second] as const,
      offset: typeA.mean,
      standardUncertainty: typeA.standardUncertainty,
      from: `both at ${positions[0]}, step ${step + 1}`,
    }));
  return [...sideBySide, ...swapped];
}

/** The offset belongs to the pair, not to the bath: it must come out the same wherever it is found. */
function offsetChecks(offsets: readonly OffsetDetermination[]): Check[] {
  const names = new Map(offsets.map(({ pair }) => [pair.join(" − "), pair]));
  return [...names].map(([name, pair]) => {
    const own = offsets.filter((offset) => offset.pair[0] === pair[0] && offset.pair[1] === pair[1]);
    const mean = own.reduce((sum, { offset }) => sum + offset, 0) / own.length;
    const check = `offset ${name} stays constant: every determination within three standard uncertainties of their mean (common practice)`;
    if (own.length === 1)
      return { check, passed: true, found: `${millikelvin(mean)}, determined once: constancy cannot be judged` };
    const lowest = Math.min(...own.map(({ offset }) => offset));
    const highest = Math.max(...own.map(({ offset }) => offset));
    /** In standard uncertainties. Readings that do not differ have no standard uncertainty: 0, or no known measure. */
    const deviation = ({ offset, standardUncertainty: u }: OffsetDetermination): number => {
      const distance = Math.abs(offset - mean);
      return distance <= ROUNDING ? 0 : u === 0 ? Infinity : distance / u;
    };
    const far = own.reduce((a, b) => (deviation(b) > deviation(a) ? b : a));
    const deviations = deviation(far);
    const range = `${own.length} determinations from ${millikelvin(lowest)} to ${millikelvin(highest)}`;
    return {
      check,
      passed: deviations <= 3,
      found:
        deviations === Infinity
          ? `${range}; the readings of ${far.from} do not differ, so their standard uncertainty is not known: state their resolution`
          : `${range}; the furthest (${far.from}) is ${figure(deviations)} standard uncertainties off`,
    };
  });
}
