import type { Atoms, Distribution } from "../distributions/distribution.ts";
import { sampledDensity, type SampledDensity } from "./sampled-density.ts";

/**
 * One independent term d = c·(X − x) of a linearised model: the part of one input, or of inputs that depend on one another
 * and whose sum has a distribution that is known. All lengths are in the measurand's unit, about the estimate.
 */
export interface LinearTerm {
  /** The inputs it stands for, by name. */
  readonly inputs: readonly string[];
  /** Distribution of X. */
  readonly distribution: Distribution;
  /** c, not 0. */
  readonly coefficient: number;
  /** x, the estimate that the budget takes. */
  readonly centre: number;
  /** Standard uncertainty |c|·u(x) that the budget takes: that of the normal twin, whose mean is 0. */
  readonly twin: number;
}

/** A term as the sum sees it: the distribution of d itself. */
export interface Part {
  /** Mean and standard deviation of d. */
  readonly mean: number;
  readonly standardDeviation: number;
  readonly support: readonly [number, number];
  /** Set if d is normal. */
  readonly normal: boolean;
  /** Length over which an analytic density of d may be sampled; 0 if it is not known to be analytic. */
  readonly smoothOver: number;
  /** The values of a discrete d; `null` for a continuous one. */
  readonly atoms: Atoms | null;
  density(d: number): number;
  /** The density at the points of a lattice. */
  readonly densities: SampledDensity;
  /** P(D ≤ d), or P(D < d) for a negative coefficient: the same but at atoms. */
  below(d: number): number;
  /** 1 − `below`, with its own digits. */
  above(d: number): number;
}

/** The distribution of d = c·(X − x). */
export function partOf({ distribution, coefficient: c, centre }: LinearTerm): Part {
  const back = (d: number): number => centre + d / c;
  const upperOf = (x: number): number => distribution.upperTail?.(x) ?? 1 - distribution.distributionFunction(x);
  const density = (d: number): number => distribution.density(back(d)) / Math.abs(c);
  const ends = distribution.support.map((x) => c * (x - centre));
  const lowerOf = (x: number): number => distribution.distributionFunction(x);
  return {
    mean: c * (distribution.mean! - centre),
    standardDeviation: Math.abs(c) * distribution.standardDeviation!,
    support: c > 0 ? [ends[0]!, ends[1]!] : [ends[1]!, ends[0]!],
    normal: distribution.normal === true,
    smoothOver: Math.abs(c) * (distribution.smoothOver ?? 0),
    atoms: scaledAtoms(distribution, c, centre),
    density,
    densities: sampledDensity(density),
    below: (d) => (c > 0 ? lowerOf(back(d)) : upperOf(back(d))),
    above: (d) => (c > 0 ? upperOf(back(d)) : lowerOf(back(d))),
  };
}

function scaledAtoms({ atoms }: Distribution, c: number, centre: number): Atoms | null {
  if (atoms === undefined) return null;
  const { values, probabilities } = atoms();
  const scaled = values.map((x) => c * (x - centre));
  return c > 0
    ? { values: scaled, probabilities }
    : { values: scaled.toReversed(), probabilities: probabilities.toReversed() };
}
