import { shortestInterval, symmetricRanks, type Interval } from "../coverage/coverage-interval.ts";
import type { Contribution } from "../linear/budget.ts";
import type { Prepared } from "../prepared/prepare.ts";
import { mergeMoments, momentsOf, NO_MOMENTS, excessKurtosis, skewness } from "../statistics/moments.ts";
import { gridOver } from "../statistics/grid.ts";
import { binnedRun } from "../statistics/binned-run.ts";
import { BinnedSample } from "../statistics/binned-sample.ts";
import { selectOfMany } from "../statistics/select.ts";
import { BLOCK_TRIALS } from "../random/block.ts";
import { withColumns } from "../random/block-generator.ts";
import { openDraws } from "../trials/draw.ts";
import { RunningFigure } from "../statistics/running-figure.ts";
import { numericalTolerance } from "../validation/numerical-tolerance.ts";
import { evaluatorOf } from "../evaluator/evaluator.ts";
import { fillTwins, overlookedIn, type Overlooked } from "./twin-columns.ts";
import { CAUSES } from "./causes.ts";
import type { Cause } from "../record/explanation.ts";

/** An input with less than this share of u² everywhere moves no endpoint visibly, whatever its distribution. */
const NEGLIGIBLE = 1e-5;

/** Bins for the trials of a propagation: about one a trial. */
const BINS = 65_536;

/** A set of active causes, as bits in the order of CAUSES. */
export const bitOf = (cause: Cause): number => 1 << CAUSES.indexOf(cause);

/** The intervals with each set of active causes, and the shapes of the inputs drawn. */
export interface Compared {
  readonly trials: number;
  /** By measurand, then by set of causes: interval at the study's coverage. */
  readonly intervals: Readonly<Record<string, readonly Interval[]>>;
  /** Which causes occur at all. */
  readonly occurring: Readonly<Record<Cause, boolean>>;
  readonly inputs: readonly {
    readonly name: string;
    readonly overlooked: Overlooked;
    readonly skewness: number;
    readonly excessKurtosis: number;
  }[];
}

/** A comparison that is made a block of trials at a time, so that other work can go on between. */
export interface Comparison {
  /** Makes one block more. @returns whether there are others to make */
  advance(): boolean;
  /** What was found, once `advance` has returned false. */
  result(): Compared;
}

/** The comparison made at once. @param fewest trials, a multiple of the block, e.g. 50 000 */
export function comparedPropagations(prepared: Prepared, fewest: number): Compared {
  const comparison = openComparison(prepared, fewest);
  while (comparison.advance());
  return comparison.result();
}

/** Most trials of each propagation. More than the run has cannot show more of its intervals. */
const MOST_TRIALS = 400_000;
/** A move is known well enough within this part of itself, or of δ. */
const WELL_KNOWN = 0.1;
/** Equal parts of the trials, from whose spread it is judged how well a move is known. */
const SECTIONS = 10;

function mostTrials({ study }: Prepared, trials: number): number {
  if (study.trials === "adaptive") return Math.max(trials, MOST_TRIALS);
  return Math.max(trials, Math.min(MOST_TRIALS, Math.floor(study.trials / BLOCK_TRIALS) * BLOCK_TRIALS));
}

/**
 * Propagates {linearised, full} × {Gaussian, stated shapes} × {Gaussian, t} on common random numbers: the trials of
 * the study itself, from the first on.
 *
 * There are twice, four and eight times as many trials, up to 400 000, where the moves of the ends are not yet known to a
 * tenth of themselves or of δ.
 *
 * @param fewest trials, a multiple of the block
 */
export function openComparison(prepared: Prepared, fewest: number): Comparison {
  const { model, source, knowledge, linear, coverage, study } = prepared;
  const inputs = Object.keys(model.inputs);
  const measurands = Object.keys(model.measurands);
  const groups = openDraws(source);
  const overlooked = inputs.map((name, i) => {
    const matters = measurands.some(
      (measurand) =>
        linear[measurand]!.contributions[i]!.share > NEGLIGIBLE || linear[measurand]!.standardUncertainty === 0,
    );
    // In a model that bends an input may matter though its first-order share vanishes.
    const bends = measurands.some((measurand) => linear[measurand]!.contributions[i]!.share < 1e-12);
    return matters || bends ? overlookedIn(knowledge[name]!, study.inputs[name]!.distribution) : null;
  });
  const evaluate = evaluatorOf(model);
  const occurring: Record<Cause, boolean> = {
    curvature: true,
    shape: overlooked.includes("shape"),
    degreesOfFreedom: overlooked.includes("degreesOfFreedom"),
  };
  const sets = Array.from({ length: 1 << CAUSES.length }, (_, set) => set).filter((set) =>
    CAUSES.every((cause) => occurring[cause] || !(set & bitOf(cause))),
  );
  let trials = fewest;
  const values = new Map(sets.map((set) => [set, measurands.map(() => new Float64Array(trials))]));
  /** Makes room for twice as many trials, if they are needed. */
  const grow = (): boolean => {
    if (2 * trials > mostTrials(prepared, fewest) || coverage.interval === "shortest" || movesKnown()) return false;
    trials *= 2;
    for (const arrays of values.values()) {
      arrays.forEach((array, m) => {
        arrays[m] = new Float64Array(trials);
        arrays[m].set(array);
      });
    }
    return true;
  };
  // Only of inputs in which the budget overlooks something: the shape of the others is not shown.
  const moments = inputs.map(() => NO_MOMENTS);

  let first = 0;
  const advance = (): boolean => {
    // In the kernel's memory, where fills are fastest and a model's program reads its inputs.
    withColumns(2 * inputs.length, (columns) =>
      nextBlock(columns.slice(0, inputs.length), columns.slice(inputs.length)),
    );
    return first < trials || grow();
  };

  const nextBlock = (stated: readonly Float64Array[], twins: readonly Float64Array[]): void => {
    const size = Math.min(BLOCK_TRIALS, trials - first);
    const block = first / BLOCK_TRIALS;
    for (const { group, places, draw } of groups) {
      const from = draw(stated, block, size);
      const known = group.members.map((name) => knowledge[name]!);
      fillTwins(
        group,
        from,
        places.map((i) => stated[i]!),
        known,
        places.map((i) => overlooked[i]!),
        places.map((i) => twins[i]!),
        size,
      );
    }
    overlooked.forEach((cause, i) => {
      if (cause !== null) moments[i] = mergeMoments(moments[i]!, momentsOf(stated[i]!.subarray(0, size)));
    });
    const sums = measurands.map((name) => linearSums(linear[name]!.contributions, overlooked, stated, twins, size));
    for (const [set, outputs] of values) {
      const columns = inputs.map((_, i) => {
        const cause = overlooked[i]!;
        // An input with nothing to overlook has no twin but itself.
        return cause === null || set & bitOf(cause) ? stated[i]! : twins[i]!;
      });
      const out = outputs.map((array) => array.subarray(first, first + size));
      const linearised = (from: number, to: number): void =>
        measurands.forEach((name, m) => {
          const { both, shape, degreesOfFreedom } = sums[m]!;
          const one = shape[set & bitOf("shape") ? "stated" : "twins"];
          const other = degreesOfFreedom[set & bitOf("degreesOfFreedom") ? "stated" : "twins"];
          const { estimate } = linear[name]!;
          const array = out[m]!;
          for (let t = from; t < to; t++) array[t] = estimate + (both[t]! + one[t]! + other[t]!);
        });
      if (!(set & bitOf("curvature"))) {
        linearised(0, size);
        continue;
      }
      // A trial where the model is not finite would have failed the run itself; a twin may reach where no stated value
      // does, and such trials are taken from the linear model.
      for (let from = 0; from < size;) {
        const failed = evaluate(
          from === 0 ? columns : columns.map((column) => column.subarray(from)),
          from === 0 ? out : out.map((array) => array.subarray(from)),
          size - from,
        );
        if (failed < 0) break;
        linearised(from + failed, from + failed + 1);
        from += failed + 1;
      }
    }
    first += size;
  };

  const symmetric = (array: Float64Array): Interval => {
    const [low, high] = symmetricRanks(array.length, coverage.probability);
    return [selectOfMany(array, low), selectOfMany(array, high)];
  };
  const interval = (array: Float64Array): Interval => {
    if (coverage.interval === "symmetric") return symmetric(array);
    const grid = gridOver(array.subarray(0, BLOCK_TRIALS), BINS);
    const run = binnedRun(array, grid, new Uint16Array(trials));
    return shortestInterval(new BinnedSample(grid, run), coverage.probability);
  };
  /** Whether the move of each endpoint, from no active cause to all of them, is known to a tenth of itself or of δ. */
  const movesKnown = (): boolean =>
    measurands.every((name, m) => {
      const [none, all] = [values.get(sets[0]!)![m]!, values.get(sets.at(-1)!)![m]!];
      const size = Math.floor(trials / SECTIONS);
      const [lows, highs] = [new RunningFigure(), new RunningFigure()];
      for (let s = 0; s < SECTIONS; s++) {
        const [from, to] = [
          symmetric(none.slice(s * size, (s + 1) * size)),
          symmetric(all.slice(s * size, (s + 1) * size)),
        ];
        lows.add(to[0] - from[0]);
        highs.add(to[1] - from[1]);
      }
      const δ = numericalTolerance(linear[name]!.standardUncertainty, study.significantDigits);
      const wanted = WELL_KNOWN * Math.max(Math.abs(lows.mean), Math.abs(highs.mean), δ);
      return 2 * Math.max(lows.standardError, highs.standardError) <= wanted;
    });
  const result = (): Compared => {
    const intervals: Record<string, Interval[]> = Object.fromEntries(measurands.map((name) => [name, []]));
    for (let set = 0; set < 1 << CAUSES.length; set++) {
      // A set with a cause that does not occur is the same as without it.
      const same = CAUSES.reduce((bits, cause) => (occurring[cause] ? bits : bits & ~bitOf(cause)), set);
      measurands.forEach((name, m) => {
        intervals[name]!.push(same === set ? interval(values.get(set)![m]!) : intervals[name]![same]!);
      });
    }
    return {
      trials,
      intervals,
      occurring,
      inputs: inputs.map((name, i) => ({
        name,
        overlooked: overlooked[i]!,
        skewness: skewness(moments[i]!),
        excessKurtosis: excessKurtosis(moments[i]!),
      })),
    };
  };
  return { advance, result };
}

/** Σ c·(x − estimate) of the trials of a block: of inputs with nothing overlooked, and, by cause, of the others and of their twins. */
interface LinearSums {
  readonly both: Float64Array;
  readonly shape: { readonly stated: Float64Array; readonly twins: Float64Array };
  readonly degreesOfFreedom: { readonly stated: Float64Array; readonly twins: Float64Array };
}

function linearSums(
  contributions: readonly Contribution[],
  overlooked: readonly Overlooked[],
  stated: readonly Float64Array[],
  twins: readonly Float64Array[],
  size: number,
): LinearSums {
  const column = (): Float64Array => new Float64Array(size);
  const sums = {
    both: column(),
    shape: { stated: column(), twins: column() },
    degreesOfFreedom: { stated: column(), twins: column() },
  };
  const terms = {
    both: listOf(),
    shape: { stated: listOf(), twins: listOf() },
    degreesOfFreedom: { stated: listOf(), twins: listOf() },
  };
  contributions.forEach(({ estimate, sensitivityCoefficient }, i) => {
    if (sensitivityCoefficient === 0) return;
    const cause = overlooked[i]!;
    const termOf = (values: Float64Array): Term => ({ values, sensitivityCoefficient, estimate });
    if (cause === null) {
      terms.both.push(termOf(stated[i]!));
    } else {
      terms[cause].stated.push(termOf(stated[i]!));
      terms[cause].twins.push(termOf(twins[i]!));
    }
  });
  addTerms(sums.both, terms.both);
  for (const cause of ["shape", "degreesOfFreedom"] as const) {
    addTerms(sums[cause].stated, terms[cause].stated);
    addTerms(sums[cause].twins, terms[cause].twins);
  }
  return sums;
}

/** c·(x − estimate) of a column. */
interface Term {
  readonly values: Float64Array;
  readonly sensitivityCoefficient: number;
  readonly estimate: number;
}

const listOf = (): Term[] => [];

/** Adds terms in their order; four at a time, since reading and writing the sum costs more than a term. */
function addTerms(sum: Float64Array, terms: readonly Term[]): void {
  let i = 0;
  for (; i + 4 <= terms.length; i += 4) {
    const { values: a, sensitivityCoefficient: ca, estimate: ea } = terms[i]!;
    const { values: b, sensitivityCoefficient: cb, estimate: eb } = terms[i + 1]!;
    const { values: c, sensitivityCoefficient: cc, estimate: ec } = terms[i + 2]!;
    const { values: d, sensitivityCoefficient: cd, estimate: ed } = terms[i + 3]!;
    for (let t = 0; t < sum.length; t++)
      sum[t] = sum[t]! + ca * (a[t]! - ea) + cb * (b[t]! - eb) + cc * (c[t]! - ec) + cd * (d[t]! - ed);
  }
  for (; i < terms.length; i++) {
    const { values, sensitivityCoefficient, estimate } = terms[i]!;
    for (let t = 0; t < sum.length; t++) sum[t] = sum[t]! + sensitivityCoefficient * (values[t]! - estimate);
  }
}
