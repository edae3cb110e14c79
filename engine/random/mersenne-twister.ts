import mt19937 from "@stdlib/random-base-mt19937";
import seedrandom from "seedrandom";
import { normalQuantile } from "../numerics/standard-normal.ts";
import type { GeneratorFamily, Sequence, Substream } from "./stream.ts";

/** The library's types omit `normalized`, which its generators have. */
type Twister = (() => number) & { readonly normalized: () => number };

/**
 * A second generator, unrelated to the first in its bits (Mersenne Twister MT19937, Matsumoto & Nishimura 1998, from
 * @stdlib) and in its method for normals (inverse of the distribution function). It is slower; its purpose is to show
 * that a result does not depend on the generator.
 */
export const mersenneTwister: GeneratorFamily = {
  id: "mt19937",
  title: "Mersenne Twister MT19937 (Matsumoto & Nishimura, ACM TOMACS 8(1), 1998; @stdlib)",
  open(seed, input) {
    const draw = seedrandom(`trialband/mt|${seed.length}|${seed}|${input}`);
    const key = [draw.int32() >>> 0, draw.int32() >>> 0, draw.int32() >>> 0, draw.int32() >>> 0];
    return (block) => substream([...key, block >>> 0, Math.floor(block / 2 ** 32)]);
  },
};

function substream(key: readonly number[]): Substream {
  const open = (...place: number[]): Sequence => {
    const twister = mt19937.factory({ seed: [...key, ...place] }) as unknown as Twister;
    const uniform = (): number => {
      let u: number;
      do u = twister.normalized();
      while (u === 0);
      return u;
    };
    return { uniform, normal: () => normalQuantile(uniform()) };
  };
  const fill = (draw: () => number, out: Float64Array, count: number, offset: number, scale: number): void => {
    for (let i = 0; i < count; i++) out[i] = offset + scale * draw();
  };
  return {
    uniforms: (channel, out, count, offset = 0, scale = 1) => fill(open(channel, 0).uniform, out, count, offset, scale),
    normals: (channel, out, count, offset = 0, scale = 1) => fill(open(channel, 1).normal, out, count, offset, scale),
    sequence: (channel, index) => open(channel, 2, index),
  };
}
