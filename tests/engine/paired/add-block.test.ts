// The kernel's sums of trials paired with their linearised values, and the plain loops that it replaces: identical bits.
import * as fc from "fast-check";
import { expect, test } from "vitest";
import { addBlock, addByLoops } from "../../../engine/paired/add-block.ts";
import { addByKernel } from "../../../engine/paired/add-block-by-kernel.ts";
import { pairedDesign } from "../../../engine/paired/paired-design.ts";
import { noPairedSums } from "../../../engine/paired/paired-sums.ts";
import { blockGenerator, kernelOfThread, withColumns } from "../../../engine/random/block-generator.ts";
import { BLOCK_TRIALS } from "../../../engine/random/block.ts";

/** Model values from a linearised value and another normal: alike, bent so that a low z has a high v, far apart, and discrete. */
const MODELS: readonly ((z: number, other: number) => number)[] = [
  (z, other) => 3 + 0.5 * (z + 0.01 * (other * other - 1)),
  (z) => 0.5 * z * z,
  (_, other) => 1e6 + 0.5 * other,
  (z) => 0.5 * Math.round(8 * z),
];

const place = fc.record({
  seed: fc.string({ maxLength: 5 }),
  model: fc.constantFrom(...MODELS),
  tail: fc.constantFrom(0.025, 0.005, 0.25, 0.45),
  trials: fc.constantFrom(BLOCK_TRIALS, 10 ** 6),
  count: fc.oneof(fc.constant(BLOCK_TRIALS), fc.integer({ min: 1, max: BLOCK_TRIALS })),
});

test("several blocks, of any number of trials: the plain loops' bits", () => {
  let byKernel = 0;
  fc.assert(
    fc.property(place, ({ seed, model, tail, trials, count }) => {
      withColumns(2, ([linearised, other]) => {
        const values = new Float64Array(BLOCK_TRIALS);
        const draw = (block: number): void => {
          blockGenerator.open(seed, "a")(block).normals(0, linearised!, BLOCK_TRIALS);
          blockGenerator.open(seed, "b")(block).normals(0, other!, BLOCK_TRIALS);
          for (let t = 0; t < BLOCK_TRIALS; t++) values[t] = model(linearised![t]!, other![t]!);
        };
        draw(0);
        const design = pairedDesign(linearised!, values, 0.5, tail, trials);
        if (design === null) return;
        const [made, plain] = [noPairedSums(), noPairedSums()];
        for (const block of [0, 1, 2]) {
          draw(block);
          const [z, v] = [linearised!.subarray(0, count), values.subarray(0, count)];
          addBlock(made, design, z, v);
          addByLoops(plain, design, z.slice(), v);
          expect(made).toEqual(plain);
        }
        if (addByKernel(kernelOfThread()!, noPairedSums(), design, linearised!, values)) byKernel += 1;
      });
    }),
    { seed: 1, numRuns: 24 },
  );
  // What was compared were two things.
  expect(byKernel).toBeGreaterThan(16);
});

test("values in other memory, and an odd block, go by the loops", () => {
  const kernel = kernelOfThread()!;
  withColumns(1, ([z]) => {
    blockGenerator.open("1", "a")(0).normals(0, z!, BLOCK_TRIALS);
    const values = z!.slice();
    const design = pairedDesign(z!, values, 1, 0.025, 1e6)!;
    expect(addByKernel(kernel, noPairedSums(), design, values, values)).toBe(false);
    expect(addByKernel(kernel, noPairedSums(), design, z!.subarray(0, 3), values.subarray(0, 3))).toBe(false);
    expect(addByKernel(kernel, noPairedSums(), design, z!.subarray(0, 4), values.subarray(0, 4))).toBe(true);
  });
});
