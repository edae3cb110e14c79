import { exp, ln } from "../elementary/index.ts";
import { BLOCK_TRIALS } from "./block.ts";
import { kernelOfThread } from "./block-generator.ts";
import type { Kernel } from "./kernel/kernel.ts";
import type { Substream } from "./stream.ts";

/** Fills `out` with variates from channels `channel` and up. */
export type ChannelSampler = (from: Substream, channel: number, out: Float64Array, count: number) => void;

/** Which of the kernel's columns for a model's results, which are free while inputs are drawn, has the uniforms. */
const UNIFORMS = 1;

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

  const untilTaken = (from: Substream, channel: number, index: number, x: number, u: number): number => {
    let value = attempt(x, u);
    if (value >= 0) return value;
    const more = from.sequence(channel, index);
    do value = attempt(more.normal(), more.uniform());
    while (value < 0);
    return value;
  };

  /** The same in the kernel's memory, bit for bit. */
  const byKernel = (kernel: Kernel, at: number, from: Substream, channel: number, out: Float64Array, count: number) => {
    const beside = kernel.outputs(UNIFORMS + 1)[UNIFORMS]!;
    from.uniforms(channel + 1, beside, count);
    const left = kernel.gammas(at, kernel.addressOf(beside), count, c, d);
    const { noteWords } = kernel;
    for (let k = 0; k < left; k++) {
      const i = noteWords[4 * k]!;
      if (i < count) out[i] = untilTaken(from, channel + 1, i, out[i]!, beside[i]!);
    }
  };

  return (from, channel, out, count) => {
    from.normals(channel, out, count);
    const kernel = kernelOfThread();
    const at = kernel === null ? -1 : kernel.addressOf(out);
    if (at >= 0) return byKernel(kernel!, at, from, channel, out, count);
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
      out[i] = untilTaken(from, channel + 1, i, x, uniforms[i]!);
    }
  };
}
