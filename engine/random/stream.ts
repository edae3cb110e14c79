/**
 * Random numbers as samplers see them.
 *
 * A substream belongs to one (seed, input, block). Within it a *channel* is an independent column of numbers, so that a
 * distribution made of two rectangulars asks for channels 0 and 1. Every fill starts its channel anew: asking for the
 * first 100 numbers gives the first 100 of what asking for 2500 gives. Nothing is kept between calls, so how work is
 * cut changes no draw.
 */
export interface Substream {
  /** Writes offset + scale·u to `out` for `count` numbers u uniform on the open interval (0, 1). */
  uniforms(channel: number, out: Float64Array, count: number, offset?: number, scale?: number): void;
  /** Writes offset + scale·z to `out` for `count` standard normal numbers z. */
  normals(channel: number, out: Float64Array, count: number, offset?: number, scale?: number): void;
  /**
   * A sequence of its own for trial `index`, for samplers that reject: however many numbers one trial takes, its
   * neighbours' draws stay the same. The object is reused; take what you need before asking for the next.
   */
  sequence(channel: number, index: number): Sequence;
}

/** Numbers one after the other, all independent. */
export interface Sequence {
  /** Uniform on (0, 1). */
  uniform(): number;
  /** Standard normal. */
  normal(): number;
}

/** A family of generators: from a study's seed and an input's name to its blocks' substreams. */
export interface GeneratorFamily {
  readonly id: string;
  /** The published names of what it is made of, with their sources. */
  readonly title: string;
  /** `block` counts from 0. The returned object is valid until the next call on the same opened input. */
  open(seed: string, input: string): (block: number) => Substream;
}
