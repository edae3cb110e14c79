import { exp, ln } from "../elementary/index.ts";
import { BLOCK_TRIALS } from "./block.ts";
import type { Substream } from "./stream.ts";

/** Fills `out` with variates from channels `channel` and up. */
export type ChannelSampler = (from: Substream, channel: number, out: Float64Array, count: number) => void;

/** Channels that one gamma sampler may use. */
export const GAMMA_CHANNELS = 3;

/**
 * A block sampler of the gamma distribution with the given shape and scale 1. Uses channels `channel` and
 * `channel + 1`, and `channel + 2` if the shape is below 1.
 *
 * Source: Marsaglia & Tsang, "A simple method for generating gamma variables", ACM TOMS 26(3), 2000, with their
 * U^(1/shape) step for shapes below 1.
 */
export function gammaSampler(shape: number): ChannelSampler {
  if (shape >= 1) return rejectionSampler(shape);
  const above = rejectionSampler(shape + 1);
  const uniforms = new Float64Array(BLOCK_TRIALS);
  return (from, channel, out, count) => {
    above(from, channel, out, count);
    from.uniforms(channel + 2, uniforms, count);
    for (let i = 0; i < count; i++) out[i] = out[i]! * exp(ln(uniforms[i]!) / shape);
  };
}

/** The natural logarithm of gamma variates: for small shapes the variates themselves often underflow. */
export function logarithmicGammaSampler(shape: number): ChannelSampler {
  const above = rejectionSampler(shape + 1);
  const uniforms = new Float64Array(BLOCK_TRIALS);
  return (from, channel, out, count) => {
    above(from, channel, out, count);
    from.uniforms(channel + 2, uniforms, count);
    for (let i = 0; i < count; i++) out[i] = ln(out[i]!) + ln(uniforms[i]!) / shape;
  };
}

function rejectionSampler(shape: number): ChannelSampler {
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  const uniforms = new Float64Array(BLOCK_TRIALS);

  /** The variate made of normal `x` and uniform `u`, or −1 if they are rejected. */
  const attempt = (x: number, u: number): number => {
    const root = 1 + c * x;
    if (root <= 0) return -1;
    const v = root * root * root;
    const x2 = x * x;
    if (u < 1 - 0.0331 * x2 * x2) return d * v;
    return ln(u) < 0.5 * x2 + d * (1 - v + ln(v)) ? d * v : -1;
  };

  return (from, channel, out, count) => {
    from.normals(channel, out, count);
    from.uniforms(channel + 1, uniforms, count);
    for (let i = 0; i < count; i++) {
      // The part of `attempt` that accepts nearly every trial, inlined: the call would cost more than the arithmetic.
      const x = out[i]!;
      const root = 1 + c * x;
      const x2 = x * x;
      if (root > 0 && uniforms[i]! < 1 - 0.0331 * x2 * x2) {
        out[i] = d * (root * root * root);
        continue;
      }
      let value = attempt(x, uniforms[i]!);
      if (value < 0) {
        const more = from.sequence(channel + 1, i);
        do value = attempt(more.normal(), more.uniform());
        while (value < 0);
      }
      out[i] = value;
    }
  };
}
