// The kernel in WebAssembly and the plain loops that it replaces: identical numbers, bit for bit.
import { readFile } from "node:fs/promises";
import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { blockGenerator, plainBlockGenerator, withColumns } from "../../../engine/random/block-generator.ts";
import { openKernel } from "../../../engine/random/kernel/kernel.ts";
import { edges } from "../../../engine/random/ziggurat.ts";
import { BLOCK_TRIALS } from "../../../engine/random/block.ts";
import { gammaSampler } from "../../../engine/random/gamma.ts";
import { tDistribution } from "../../../engine/distributions/student-t.ts";
import { weightedSumOf } from "../../../engine/random/weighted-sum.ts";
import { kernelModule } from "../../generator/kernel.ts";

test("this host has the kernel, so that what follows compares two things", () =>
  expect(openKernel(edges, BLOCK_TRIALS)).not.toBeNull());

test.each(["random/kernel/kernel", "statistics/kernel/summaries", "convolution/transform"])(
  "the bytes of %s are those of its text",
  async (name) => {
    const text = (ending: string): Promise<string> =>
      readFile(new URL(`../../../engine/${name}${ending}`, import.meta.url), "utf8");
    expect(await text("-bytes.ts")).toBe(await kernelModule(`${name.split("/").at(-1)!}.wat`, await text(".wat")));
  },
);

describe("fills", () => {
  const fills = ["uniforms", "normals"] as const;
  test.each(fills)("%s: the plain loop's bits, in the kernel's columns and in any other array", (fill) => {
    const place = fc.record({
      seed: fc.string({ maxLength: 5 }),
      block: fc.oneof(fc.nat({ max: 100 }), fc.constantFrom(2 ** 31, 2 ** 32 - 1, 2 ** 32, 2 ** 40)),
      channel: fc.nat({ max: 31 }),
      count: fc.oneof(fc.constant(BLOCK_TRIALS), fc.integer({ min: 1, max: BLOCK_TRIALS })),
      offset: fc.constantFrom(0, -3.5, 1e6),
      scale: fc.constantFrom(1, 0.1, 7),
    });
    fc.assert(
      fc.property(place, ({ seed, block, channel, count, offset, scale }) => {
        const plain = new Float64Array(BLOCK_TRIALS).fill(9);
        plainBlockGenerator.open(seed, "x")(block)[fill](channel, plain, count, offset, scale);
        const other = new Float64Array(BLOCK_TRIALS).fill(9);
        blockGenerator.open(seed, "x")(block)[fill](channel, other, count, offset, scale);
        expect(other).toEqual(plain);
        withColumns(3, (columns) => {
          columns[2]!.fill(5);
          blockGenerator.open(seed, "x")(block)[fill](channel, columns[1]!, count, offset, scale);
          expect(columns[1]!.subarray(0, count)).toEqual(plain.subarray(0, count));
          // Whole fours are written, never into the next column.
          expect(columns[2]!.every((x) => x === 5)).toBe(true);
        });
      }),
      { seed: 1, numRuns: 40 },
    );
  });

  test("columns asked for while others are lent are others; more columns than before keep what they hold", () => {
    withColumns(2, (outer) => {
      outer[0]!.fill(1);
      withColumns(2, (inner) => {
        inner[0]!.fill(2);
        expect(outer[0]![0]).toBe(1);
      });
    });
    withColumns(60, (columns) => {
      const open = blockGenerator.open("1", "x");
      columns.forEach((column, i) => open(i).normals(0, column, BLOCK_TRIALS));
      for (const i of [0, 17, 59]) {
        const plain = new Float64Array(BLOCK_TRIALS);
        plainBlockGenerator.open("1", "x")(i).normals(0, plain, BLOCK_TRIALS);
        expect(columns[i]).toEqual(plain);
      }
    });
  });

  test("without WebAssembly, or where it is forbidden, there is no kernel and the plain loops run", () => {
    const host = globalThis as { WebAssembly?: unknown };
    const kept = host.WebAssembly;
    try {
      delete host.WebAssembly;
      expect(openKernel(edges, BLOCK_TRIALS)).toBeNull();
      host.WebAssembly = {
        Module: function () {
          throw new EvalError("refused by the content security policy");
        },
      };
      expect(openKernel(edges, BLOCK_TRIALS)).toBeNull();
    } finally {
      host.WebAssembly = kept;
    }
  });
});

test("weighted sums: the plain loops' bits, with means and without, for any number of trials", () => {
  const term = fc.record({
    column: fc.nat({ max: 5 }),
    coefficient: fc.double({ min: -1e3, max: 1e3, noNaN: true }),
    mean: fc.oneof(fc.constant(0), fc.double({ min: -1e6, max: 1e6, noNaN: true })),
  });
  const counts = fc.oneof(fc.constant(BLOCK_TRIALS), fc.integer({ min: 1, max: BLOCK_TRIALS }));
  fc.assert(
    fc.property(fc.array(term, { maxLength: 9 }), counts, (terms, count) => {
      withColumns(7, (columns) => {
        columns.slice(0, 6).forEach((column, i) => blockGenerator.open("1", "x")(i).normals(0, column, BLOCK_TRIALS));
        const copies = columns.map((column) => column.slice());
        const plain = new Float64Array(BLOCK_TRIALS);
        // Columns of other memory are summed by the plain loops.
        weightedSumOf(terms)(copies, plain, count);
        weightedSumOf(terms)(columns, columns[6]!, count);
        expect(columns[6]!.subarray(0, count)).toEqual(plain.subarray(0, count));
      });
    }),
    { seed: 1, numRuns: 100 },
  );
});

test("gamma and t variates: the plain loops' bits, for any number of trials", () => {
  const samplers = [0.3, 0.5, 1, 1.5, 4.5, 1e4].flatMap((shape) => [
    (block: number, out: Float64Array, count: number) =>
      gammaSampler(shape)(blockGenerator.open("1", "x")(block), 3, out, count),
    (block: number, out: Float64Array, count: number) =>
      tDistribution(-2, 0.7, shape).sample(blockGenerator.open("1", "x")(block), out, count),
  ]);
  const counts = fc.oneof(fc.constant(BLOCK_TRIALS), fc.integer({ min: 1, max: BLOCK_TRIALS }));
  fc.assert(
    fc.property(fc.nat({ max: samplers.length - 1 }), fc.nat({ max: 1000 }), counts, (which, block, count) => {
      const plain = new Float64Array(BLOCK_TRIALS);
      samplers[which]!(block, plain, count);
      withColumns(3, (columns) => {
        samplers[which]!(block, columns[1]!, count);
        expect(columns[1]!.subarray(0, count)).toEqual(plain.subarray(0, count));
      });
    }),
    { seed: 1, numRuns: 40 },
  );
});
