/**
 * Random numbers as samplers see them.
 *
 * A substream belongs to one (seed, input, block). Within it a *channel* is an independent column of numbers: a
 * distribution made of two rectangulars uses channels 0 and 1. Every fill starts its channel at the beginning, so a fill
 * of 100 numbers gives the first 100 of a fill of 2500. No state is kept between calls, so no draw depends on how the
 * work is divided.
 */
export interface Substream {
  /** Writes offset + scale·u to `out` for `count` numbers u uniform on the open interval (0, 1). */
  uniforms(channel: number, out: Float64Array, count: number, offset?: number, scale?: number): void;
  /** Writes offset + scale·z to `out` for `count` standard normal numbers z. */
  normals(channel: number, out: Float64Array, count: number, offset?: number, scale?: number): void;
  /**
   * A separate sequence for trial `index`, for samplers that reject: the other trials' draws do not depend on how many
   * numbers this trial uses. The object is reused: the next call ends this sequence.
   */
  sequence(channel: number, index: number): Sequence;
}

/** Independent numbers, one after another. */
export interface Sequence {
  /** Uniform on (0, 1). */
  uniform(): number;
  /** Standard normal. */
  normal(): number;
}

/** A family of generators: from a study's seed and an input's name to its blocks' substreams. */
export interface GeneratorFamily {
  readonly id: string;
  /** The published names of its parts, with their sources. */
  readonly title: string;
  /** `block` counts from 0. The returned object is valid until the next call on the same opened input. */
  open(seed: string, input: string): (block: number) => Substream;
}
