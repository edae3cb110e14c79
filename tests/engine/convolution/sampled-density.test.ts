import { expect, test } from "vitest";
import { sampledDensity } from "../../../engine/convolution/sampled-density.ts";
import { tDensity, tDensityFor } from "../../../engine/numerics/standard-t.ts";

/** A density that is not symmetric, about a centre that is no point of a lattice. */
const density = (d: number): number => tDensity(d - 0.1, 5);

test("on coarser lattices, finer ones and wider ones: the density's own values, each computed once", () => {
  let calls = 0;
  const densities = sampledDensity((d) => {
    calls += 1;
    return density(d);
  });
  // Step, last point, and how many of its points are new.
  for (const [step, last, fresh] of [
    [1 / 8, 64, 129],
    [1 / 4, 32, 0],
    [1 / 2, 16, 0],
    [1 / 16, 128, 128],
    [1 / 16, 128, 0],
    [1 / 16, 130, 4],
    [1 / 32, 10, 10],
    // Finer than the last, which reached less far: what it does not hold is computed anew.
    [1 / 32, 12, 4],
  ] as const) {
    const before = calls;
    const values = densities(step, last);
    expect([...values]).toEqual(Array.from({ length: 2 * last + 1 }, (_, i) => density((i - last) * step)));
    expect(calls - before, `step ${step}`).toBe(fresh);
  }
});

test("one ν and many x: the bits of the density", () => {
  for (const ν of [0.5, 1, 4.3, 30, 1e6, 1e20])
    for (const x of [0, 0.1, -1, 3, 40, 1e9]) expect(tDensityFor(ν)(x)).toBe(tDensity(x, ν));
});
