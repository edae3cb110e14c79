import { shortestInterval, symmetricInterval, type Interval } from "../coverage/coverage-interval.ts";
import type { Prepared } from "../prepare.ts";
import { momentsOf, excessKurtosis, skewness } from "../statistics/moments.ts";
import { OrderedSample } from "../statistics/ordered-sample.ts";
import { BLOCK_TRIALS } from "../trials/block.ts";
import { evaluatorOf } from "../trials/evaluator.ts";
import { fillTwins, overlookedIn, type Overlooked } from "./twin-columns.ts";
import { CAUSES, type Cause } from "./explanation-record.ts";

/** An input with less than this part of u² everywhere moves no end visibly, whatever its distribution. */
const NEGLIGIBLE = 1e-5;

/** A set of causes let in, as bits in the order of CAUSES. */
export const bitOf = (cause: Cause): number => 1 << CAUSES.indexOf(cause);

/** The intervals found with each set of causes let in, and the shapes of the inputs drawn. */
export interface Compared {
  readonly trials: number;
  /** By measurand, then by set of causes: interval at the study's coverage. */
  readonly intervals: Readonly<Record<string, readonly Interval[]>>;
  /** Which causes occur at all. */
  readonly occurring: Readonly<Record<Cause, boolean>>;
  readonly inputs: readonly { readonly name: string; readonly overlooked: Overlooked; readonly skewness: number; readonly excessKurtosis: number }[];
}

/**
 * Propagates {linearised, full} × {Gaussian, stated shapes} × {Gaussian, t} on common random numbers: the trials of
 * the study itself, from the first on.
 *
 * @param trials a multiple of the block, e.g. 100 000
 */
export function comparedPropagations(prepared: Prepared, trials: number): Compared {
  const { model, source, knowledge, linear, coverage, study } = prepared;
  const inputs = Object.keys(model.inputs);
  const measurands = Object.keys(model.measurands);
  const streams = inputs.map((name) => source.generator.open(source.seed, name));
  const stated = inputs.map(() => new Float64Array(BLOCK_TRIALS));
  const twins = inputs.map(() => new Float64Array(BLOCK_TRIALS));
  const overlooked = inputs.map((name, i) => {
    const matters = measurands.some((measurand) => linear[measurand]!.contributions[i]!.share > NEGLIGIBLE || linear[measurand]!.standardUncertainty === 0);
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
  const sets = Array.from({ length: 1 << CAUSES.length }, (_, set) => set).filter((set) => CAUSES.every((cause) => occurring[cause] || !(set & bitOf(cause))));
  const values = new Map(sets.map((set) => [set, measurands.map(() => new Float64Array(trials))]));
  const kept = inputs.map(() => new Float64Array(trials));

  for (let first = 0; first < trials; first += BLOCK_TRIALS) {
    const size = Math.min(BLOCK_TRIALS, trials - first);
    const block = first / BLOCK_TRIALS;
    for (const group of source.groups) {
      const places = group.members.map((name) => inputs.indexOf(name));
      const from = places.map((i) => streams[i]!(block));
      const draws = places.map((i) => stated[i]!);
      group.sample(from, draws, size);
      const known = group.members.map((name) => knowledge[name]!);
      fillTwins(group, from, draws, known, places.map((i) => overlooked[i]!), places.map((i) => twins[i]!), size);
    }
    stated.forEach((column, i) => kept[i]!.set(column.subarray(0, size), first));
    for (const [set, outputs] of values) {
      const columns = inputs.map((_, i) => {
        const cause = overlooked[i]!;
        // An input with nothing to overlook has no twin but itself.
        return cause === null || set & bitOf(cause) ? stated[i]! : twins[i]!;
      });
      const out = outputs.map((array) => array.subarray(first, first + size));
      if (set & bitOf("curvature")) {
        // A trial where the model is not finite would have failed the run itself; a twin may reach where no stated
        // value does, and such trials are taken from the linear model.
        for (let from = 0; from < size; ) {
          const failed = evaluate(columns.map((column) => column.subarray(from)), out.map((array) => array.subarray(from)), size - from);
          if (failed < 0) break;
          linearised(columns, out, from + failed, from + failed + 1);
          from += failed + 1;
        }
      } else {
        linearised(columns, out, 0, size);
      }
    }
  }

  function linearised(columns: readonly Float64Array[], out: readonly Float64Array[], from: number, to: number): void {
    measurands.forEach((name, m) => {
      const { estimate, contributions } = linear[name]!;
      const array = out[m]!;
      array.fill(estimate, from, to);
      contributions.forEach(({ estimate: x, sensitivityCoefficient: c }, i) => {
        if (c === 0) return;
        const column = columns[i]!;
        for (let t = from; t < to; t++) array[t] = array[t]! + c * (column[t]! - x);
      });
    });
  }

  const interval = (array: Float64Array): Interval => {
    const sample = new OrderedSample();
    sample.add(array.sort());
    return (coverage.interval === "shortest" ? shortestInterval : symmetricInterval)(sample, coverage.probability);
  };
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
    inputs: inputs.map((name, i) => {
      const moments = momentsOf(kept[i]!);
      return { name, overlooked: overlooked[i]!, skewness: skewness(moments), excessKurtosis: excessKurtosis(moments) };
    }),
  };
}
