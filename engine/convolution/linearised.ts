import { powerOfTwoAbove } from "../numerics/power-of-two.ts";
import type { LinearTerm } from "./linear-term.ts";
import { NONE_SWAPPED, sumOfTerms, type BuiltSum, type Fineness, type SumOfTerms, type Swapped } from "./linear-sum.ts";
import { inUnit, symmetricOf, type SumDistribution } from "./sum-distribution.ts";

/** Why the distribution of a linearised model is not to be had. */
export type Unavailable =
  /** No term varies. */
  | { readonly kind: "unavailable"; readonly because: "nothingVaries"; readonly inputs: readonly [] }
  /** Inputs that have no standard deviation, such as a t with ν ≤ 2; inputs that depend on one another by a copula. */
  | {
      readonly kind: "unavailable";
      readonly because: "noStandardDeviation" | "copula";
      readonly inputs: readonly string[];
    }
  /** The endpoints are not known to the error that was asked for: what was reached. */
  | {
      readonly kind: "unavailable";
      readonly because: "accuracy";
      readonly inputs: readonly [];
      readonly reached: number;
      readonly wanted: number;
    };

/** The distribution of a linearised model with the stated distributions: deviations from the estimate. */
export interface Linearised {
  readonly kind: "distribution";
  readonly distribution: SumDistribution;
  /** The probabilistically symmetric interval of the probability asked for. */
  readonly interval: readonly [number, number];
  /** Most that the endpoints of that interval are off, as two lattices and the tails left out tell. */
  readonly error: readonly [number, number];
  /** Cells of the lattice; `null` where the distribution is known in closed form. */
  readonly cells: number | null;
  /**
   * The distribution with the terms at these places taken as their normal twins, on the same lattice: a product and an
   * inverse transform.
   */
  swapped(terms: Swapped): SumDistribution;
  /** The terms, for their places. */
  readonly terms: readonly LinearTerm[];
}

/** Cells of the first lattice, of the last that is tried for a better figure, and of the last that is tried at all. */
const FIRST_CELLS = 4096;
const USUAL_CELLS = 2 ** 14;
const MOST_CELLS = 2 ** 17;
/** Error of an endpoint that is aimed at, in standard deviations. */
const AIM = 1e-6;
/** Least error that is stated, in standard deviations: lattices may agree better than they are right. */
const LEAST = 1e-8;
/** Greatest widening of the lattice for heavy tails. */
const WIDEST = 64;
/** Rounding of a sum of probabilities. */
const ROUNDING = 2 ** -50;

/**
 * The exact distribution of y − f(x) = Σ c_i·(X_i − x_i), by convolution.
 *
 * @param terms independent; terms that do not vary are left out
 * @param probability of the interval whose endpoints must be known
 * @param tolerance greatest error of these endpoints
 */
export function linearisedOf(
  terms: readonly LinearTerm[],
  { probability, tolerance }: { readonly probability: number; readonly tolerance: number },
): Linearised | Unavailable {
  const varying = terms.filter(
    ({ coefficient, distribution }) => coefficient !== 0 && distribution.standardDeviation !== 0,
  );
  if (varying.length === 0) return { kind: "unavailable", because: "nothingVaries", inputs: [] };
  const without = varying.filter(({ distribution: { standardDeviation: s } }) => s === null || !Number.isFinite(s));
  if (without.length > 0) {
    return { kind: "unavailable", because: "noStandardDeviation", inputs: without.flatMap(({ inputs }) => inputs) };
  }
  const unit = unitFor(varying);
  const sum = sumOfTerms(varying.map((term) => termIn(unit, term)));
  const { built, fineness, error: relative } = refine(sum, probability, tolerance / unit);
  const error = [relative[0] * unit, relative[1] * unit] as const;
  const reached = Math.max(...error);
  if (!(reached <= tolerance))
    return { kind: "unavailable", because: "accuracy", inputs: [], reached, wanted: tolerance };
  const distribution = inUnit(built.distribution, unit);
  return {
    kind: "distribution",
    distribution,
    interval: symmetricOf(distribution, probability),
    error,
    cells: built.lattice?.cells ?? null,
    swapped: (places) => inUnit(sum.build(places, fineness).distribution, unit),
    terms: varying,
  };
}

/** Lengths between 2^-200 and 2^200 have squares and densities that a double holds; a sum of others has a unit of its own. */
const USUAL = 2 ** 200;

/** A power of two, so that no digit changes: 1 for usual lengths. */
function unitFor(terms: readonly LinearTerm[]): number {
  const largest = Math.max(...terms.map(({ twin }) => twin));
  return largest > 1 / USUAL && largest < USUAL ? 1 : powerOfTwoAbove(largest);
}

const termIn = (unit: number, term: LinearTerm): LinearTerm =>
  unit === 1 ? term : { ...term, coefficient: term.coefficient / unit, twin: term.twin / unit };

interface Refined {
  readonly built: BuiltSum;
  readonly fineness: Fineness;
  readonly error: readonly [number, number];
}

/** Finer lattices, and wider ones, until they agree. */
function refine(sum: SumOfTerms, probability: number, tolerance: number): Refined {
  const endsOf = ({ distribution }: BuiltSum): Ends => symmetricOf(distribution, probability);
  const coarser = (fineness: Fineness, times: number): Ends =>
    endsOf(sum.build(NONE_SWAPPED, { ...fineness, cells: fineness.cells / times }));
  let fineness: Fineness = { cells: FIRST_CELLS, widening: 1 };
  let built = sum.build(NONE_SWAPPED, fineness);
  if (built.lattice === null) return { built, fineness, error: [0, 0] };
  const { standardDeviation } = built.distribution;
  let ends = [endsOf(built), coarser(fineness, 2), coarser(fineness, 4)] as const;
  for (;;) {
    const tails = tailErrors(built, sum, ends[0]);
    const floor = LEAST * standardDeviation;
    const error = [0, 1].map((end) => Math.max(floor, latticeError(ends, end)) + tails[end]!) as [number, number];
    const worst = Math.max(...error);
    const aim = fineness.cells < USUAL_CELLS ? Math.min(tolerance, AIM * standardDeviation) : tolerance;
    if (worst <= aim || fineness.cells >= MOST_CELLS) return { built, fineness, error };
    const wider = Math.max(...tails) > worst / 2 && fineness.widening < WIDEST;
    fineness = { cells: fineness.cells * 2, widening: fineness.widening * (wider ? 2 : 1) };
    built = sum.build(NONE_SWAPPED, fineness);
    ends = wider ? [endsOf(built), coarser(fineness, 2), coarser(fineness, 4)] : [endsOf(built), ends[0], ends[1]];
  }
}

type Ends = readonly [number, number];

/**
 * The error of an endpoint, from lattices of this many cells, of half and of a quarter of them. It falls at least with the second power
 * of the step, but not evenly where densities jump: two lattices may agree by chance, three hardly do.
 */
const latticeError = ([fine, half, quarter]: readonly [Ends, Ends, Ends], end: number): number =>
  Math.max(4 * Math.abs(fine[end]! - half[end]!), Math.abs(half[end]! - quarter[end]!));

/** What the tails left out, the guard and rounding can move either endpoint by. */
function tailErrors({ distribution, lattice, cut, guard }: BuiltSum, { terms }: SumOfTerms, [low, high]: Ends): Ends {
  const { reach } = lattice!;
  // A term beyond the reach moves the sum past an endpoint unless the others bring it back: at most as often as the sum is
  // that far on the other side while that term is below its middle.
  const back = Math.max(distribution.distributionFunction(high - reach), distribution.upperTail(low + reach));
  const probabilityOff = ROUNDING + guard + (cut * cut) / 2 + (cut === 0 ? 0 : cut * Math.min(1, terms.length * back));
  return [probabilityOff / distribution.density(low), probabilityOff / distribution.density(high)];
}
