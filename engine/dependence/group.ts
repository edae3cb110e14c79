import type { Distribution } from "../distributions/distribution.ts";
import type { Substream } from "../random/stream.ts";

/** Inputs that are drawn together. A lone input is a group of one. */
export interface Group {
  readonly members: readonly string[];
  /** The members' marginal distributions, in their order. */
  readonly distributions: readonly Distribution[];
  /** Their joint distribution, for readers; `null` for a lone input. */
  readonly kind: "multivariate normal" | "multivariate t" | "Gaussian copula" | null;
  /** ν of a multivariate t as it is drawn. */
  readonly degreesOfFreedom?: number;
  /**
   * Of a Gaussian copula of members of one shape that depend on each other completely: the number a_i of each member with
   * X_i − E X_i = a_i·(X_0 − E X_0). Absent or `null` of every other group.
   */
  readonly multiples?: () => readonly number[] | null;
  /** Writes one block: `out[i]` takes `count` draws of member i from `from[i]`, its own substream, and the others'. */
  sample(from: readonly Substream[], out: readonly Float64Array[], count: number): void;
  /** The correlated standard normals behind a block; `null` for a lone input. */
  readonly normals: ((from: readonly Substream[], out: readonly Float64Array[], count: number) => void) | null;
  /** Number of uniforms that `fromUniforms` needs per trial: none for a constant. */
  readonly dimensions: number;
  /**
   * Writes draws made by inversion: trial t of every member from `uniforms[0][t]` … `uniforms[dimensions − 1][t]`,
   * numbers on the open interval (0, 1).
   */
  fromUniforms(uniforms: readonly Float64Array[], out: readonly Float64Array[], count: number): void;
}
