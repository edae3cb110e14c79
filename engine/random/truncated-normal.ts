import { exp, ln } from "../elementary/index.ts";
import { BLOCK_TRIALS } from "./block.ts";
import type { Substream } from "./stream.ts";

/** Smallest probability between the limits for which drawing normals until one fits is fastest. */
const REDRAW = 0.25;
/** Fall of the density from one limit to the other, as a power of e, up to which a rectangular majorant wastes little. */
const FLAT = 1.5;

/**
 * A block sampler of the standard normal given that it lies between a < b; for any limits it needs at most a few
 * attempts per draw. Uses channels 0 and 1.
 *
 * Source: C. P. Robert, "Simulation of truncated normal variables", Stat. Comput. 5 (1995): an exponential majorant of
 * the best rate in a tail, a rectangular one if the limits are close, otherwise plain redrawing.
 *
 * @param enclosed P(a < Z ≤ b)
 */
export function truncatedNormalSampler(
  a: number,
  b: number,
  enclosed: number,
): (from: Substream, out: Float64Array, count: number) => void {
  if (enclosed >= REDRAW) return redrawing(a, b);
  // The upper tail serves for both.
  if (b < 0) return majorised(-b, -a, -1);
  return majorised(a, b, 1);
}

function redrawing(a: number, b: number): (from: Substream, out: Float64Array, count: number) => void {
  return (from, out, count) => {
    from.normals(0, out, count);
    for (let i = 0; i < count; i++) {
      if (out[i]! >= a && out[i]! <= b) continue;
      const more = from.sequence(1, i);
      let z: number;
      do z = more.normal();
      while (z < a || z > b);
      out[i] = z;
    }
  };
}

function majorised(a: number, b: number, sign: 1 | -1): (from: Substream, out: Float64Array, count: number) => void {
  const seconds = new Float64Array(BLOCK_TRIALS);
  const peak = Math.max(a, 0);
  // Limits on either side of 0 that enclose so little are close together, so the density is flat between them.
  const flat = (b - peak) * (b + peak) <= 2 * FLAT;
  const rate = (a + Math.sqrt(a * a + 4)) / 2;
  /** The draw made of two uniforms, or NaN if they are rejected. */
  const attempt = flat
    ? (u: number, v: number): number => {
        const z = a + (b - a) * u;
        return v <= exp(((peak - z) * (peak + z)) / 2) ? z : Number.NaN;
      }
    : (u: number, v: number): number => {
        const z = a - ln(u) / rate;
        return z <= b && v <= exp(-0.5 * (z - rate) * (z - rate)) ? z : Number.NaN;
      };
  return (from, out, count) => {
    from.uniforms(0, out, count);
    from.uniforms(1, seconds, count);
    for (let i = 0; i < count; i++) {
      let z = attempt(out[i]!, seconds[i]!);
      if (Number.isNaN(z)) {
        const more = from.sequence(1, i);
        do z = attempt(more.uniform(), more.uniform());
        while (Number.isNaN(z));
      }
      out[i] = sign * z;
    }
  };
}
