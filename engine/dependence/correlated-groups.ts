import { gammaQuantile } from "../distributions/gamma.ts";
import { normalDistributionFunction, normalQuantile } from "../numerics/standard-normal.ts";
import { tDistribution } from "../distributions/student-t.ts";
import { gammaSampler } from "../random/gamma.ts";
import { BLOCK_TRIALS } from "../random/block.ts";
import type { Distribution } from "../distributions/distribution.ts";
import type { Matrix } from "../numerics/matrix.ts";
import type { Group } from "./group.ts";
import { withinUnit } from "./hermite-expansion.ts";
import { multiplesOfFirst } from "./multiples.ts";

type Normals = NonNullable<Group["normals"]>;

const correlatedNormals =
  (factor: Matrix): Normals =>
  (from, out, count) => {
    for (let i = 0; i < out.length; i++) {
      // A member that depends on the earlier ones completely has no normal of its own.
      if (factor[i]![i] !== 0) from[i]!.normals(0, out[i]!, count);
    }
    correlate(factor, out, count);
  };

/** Correlated standard normals by inversion. */
function normalsFromUniforms(
  factor: Matrix,
  uniforms: readonly Float64Array[],
  out: readonly Float64Array[],
  count: number,
): void {
  for (let i = 0; i < out.length; i++) {
    for (let t = 0; t < count; t++) out[i]![t] = normalQuantile(uniforms[i]![t]!);
  }
  correlate(factor, out, count);
}

/** Correlated standard normals, in place of the independent ones that `out` holds. */
function correlate(factor: Matrix, out: readonly Float64Array[], count: number): void {
  const n = out.length;
  // From the last member up: each needs only itself and earlier ones, still independent.
  for (let i = n - 1; i >= 0; i--) {
    const row = factor[i]!;
    const column = out[i]!;
    if (row[i] === 0) column.fill(0, 0, count);
    else for (let t = 0; t < count; t++) column[t] = row[i]! * column[t]!;
    for (let j = 0; j < i; j++) {
      const weight = row[j]!;
      if (weight === 0) continue;
      const other = out[j]!;
      for (let t = 0; t < count; t++) column[t] = column[t]! + weight * other[t]!;
    }
  }
}

/** A group whose values are made, in place, of correlated standard normals alone. */
function ofNormals(
  kind: "multivariate normal" | "Gaussian copula",
  members: readonly string[],
  distributions: readonly Distribution[],
  factor: Matrix,
  place: (out: readonly Float64Array[], count: number) => void,
): Group {
  const normals = correlatedNormals(factor);
  return {
    members,
    distributions,
    kind,
    normals,
    sample(from, out, count) {
      normals(from, out, count);
      place(out, count);
    },
    dimensions: members.length,
    fromUniforms(uniforms, out, count) {
      normalsFromUniforms(factor, uniforms, out, count);
      place(out, count);
    },
  };
}

export function multivariateNormal(
  members: readonly string[],
  distributions: readonly Distribution[],
  factor: Matrix,
): Group {
  const place = (out: readonly Float64Array[], count: number): void => {
    for (let i = 0; i < out.length; i++) {
      const { mean, standardDeviation } = distributions[i]!;
      const column = out[i]!;
      for (let t = 0; t < count; t++) column[t] = mean! + standardDeviation! * column[t]!;
    }
  };
  return ofNormals("multivariate normal", members, distributions, factor, place);
}

/** t_ν(location, scale·R·scale): normals and one shared χ² a trial, drawn from the first member's substream. */
export function multivariateT(
  members: readonly string[],
  locations: readonly number[],
  scales: readonly number[],
  ν: number,
  factor: Matrix,
): Group {
  const halfChiSquare = gammaSampler(ν / 2);
  const gammas = new Float64Array(BLOCK_TRIALS);
  const normals = correlatedNormals(factor);
  /** Values from the normals that `out` holds and halves of χ² in `gammas`. */
  const place = (out: readonly Float64Array[], count: number): void => {
    for (let t = 0; t < count; t++) gammas[t] = Math.sqrt(ν / (2 * gammas[t]!));
    for (let i = 0; i < out.length; i++) {
      const column = out[i]!;
      for (let t = 0; t < count; t++) column[t] = locations[i]! + scales[i]! * column[t]! * gammas[t]!;
    }
  };
  return {
    members,
    distributions: members.map((_, i) => tDistribution(locations[i]!, scales[i]!, ν)),
    kind: "multivariate t",
    degreesOfFreedom: ν,
    normals,
    sample(from, out, count) {
      normals(from, out, count);
      halfChiSquare(from[0]!, 1, gammas, count);
      place(out, count);
    },
    // The last is for the χ² they share.
    dimensions: members.length + 1,
    fromUniforms(uniforms, out, count) {
      normalsFromUniforms(factor, uniforms, out, count);
      for (let t = 0; t < count; t++) gammas[t] = gammaQuantile(ν / 2, uniforms[members.length]![t]!);
      place(out, count);
    },
  };
}

export function copula(members: readonly string[], distributions: readonly Distribution[], factor: Matrix): Group {
  const followers = followersOf(factor);
  const probabilities = new Float64Array(BLOCK_TRIALS);
  const place = (out: readonly Float64Array[], count: number): void => {
    for (const [i, alike] of followers) {
      const column = out[i]!;
      for (let t = 0; t < count; t++) probabilities[t] = withinUnit(normalDistributionFunction(column[t]!));
      for (const j of alike) {
        const values = out[j]!;
        const { quantile } = distributions[j]!;
        for (let t = 0; t < count; t++) values[t] = quantile(probabilities[t]!);
      }
    }
  };
  let multiples: readonly number[] | null | undefined;
  return {
    ...ofNormals("Gaussian copula", members, distributions, factor, place),
    multiples: () => (multiples === undefined ? (multiples = multiplesOfFirst(distributions, factor)) : multiples),
  };
}

/** Members by the normal behind them: each first member that has one, with all that have the same. */
function followersOf(factor: Matrix): ReadonlyMap<number, readonly number[]> {
  const followers = new Map<number, number[]>();
  factor.forEach((row, i) => {
    const first = factor.findIndex((other) => other.every((weight, j) => weight === row[j]));
    followers.set(first, [...(followers.get(first) ?? []), i]);
  });
  return followers;
}
