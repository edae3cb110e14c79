import seedrandom from "seedrandom";
import { describe, expect, test } from "vitest";
import { normalDistributionFunction } from "../../../engine/numerics/standard-normal.ts";
import { blockGenerator } from "../../../engine/random/block-generator.ts";
import { philox4x32 } from "../../../engine/random/philox.ts";
import type { Substream } from "../../../engine/random/stream.ts";
import { BLOCK_TRIALS } from "../../../engine/random/block.ts";

const BLOCKS = 200;
const DRAWS = BLOCKS * BLOCK_TRIALS;
/** Five standard errors: a false alarm in 1.7 million, were the seeds not fixed. */
const STANDARD_ERRORS = 5;
/** Chance that a right generator fails one Kolmogorov–Smirnov test. */
const FALSE_ALARM = 1e-6;

type Fill = (from: Substream, channel: number, out: Float64Array, count: number) => void;
const uniforms: Fill = (from, channel, out, count) => from.uniforms(channel, out, count);
const normals: Fill = (from, channel, out, count) => from.normals(channel, out, count);

function draw(fill: Fill, seed = "1", input = "x", channel = 0, firstBlock = 0, blocks = BLOCKS): Float64Array {
  const all = new Float64Array(blocks * BLOCK_TRIALS);
  const open = blockGenerator.open(seed, input);
  for (let b = 0; b < blocks; b++) {
    fill(open(firstBlock + b), channel, all.subarray(b * BLOCK_TRIALS, (b + 1) * BLOCK_TRIALS), BLOCK_TRIALS);
  }
  return all;
}

const mean = (values: Float64Array, f: (x: number) => number): number =>
  values.reduce((sum, x) => sum + f(x), 0) / values.length;

/** C. Doty-Humphrey's sfc32 as published with PractRand 0.95, written plainly from its definition. */
function sfc32(a: number, b: number, c: number, counter: number): () => number {
  return () => {
    const result = (a + b + counter) >>> 0;
    counter = (counter + 1) >>> 0;
    a = (b ^ (b >>> 9)) >>> 0;
    b = (c + ((c << 3) >>> 0)) >>> 0;
    c = ((((c << 21) | (c >>> 11)) >>> 0) + result) >>> 0;
    return result;
  };
}

describe("sfc32", () => {
  test.each([
    ["1", "x", 0, 0],
    ["spring calibration", "bath", 3, 7],
    ["1", "x", 31, 2 ** 32 + 5],
  ] as const)(
    "seed %s, input %s, channel %d, block %d: every lane is a plain sfc32 started by Philox",
    (seed, input, channel, block) => {
      const key = seedrandom(`trialband/1|${seed.length}|${seed}|${input}`);
      const [k0, k1, c2, c3] = [key.int32(), key.int32(), key.int32(), key.int32()];
      const u = new Float64Array(400);
      blockGenerator.open(seed, input)(block).uniforms(channel, u, u.length);
      for (let lane = 0; lane < 4; lane++) {
        const state = new Uint32Array(4);
        philox4x32(state, k0, k1, block % 2 ** 32, (Math.floor(block / 2 ** 32) << 16) | (channel << 2) | lane, c2, c3);
        const next = sfc32(state[0]!, state[1]!, state[2]!, state[3]!);
        for (let i = 0; i < 12; i++) next();
        for (let i = lane; i < u.length; i += 4) {
          // 52 bits, all of one word and the upper 20 of the next, and half a cell.
          expect(u[i]).toBe((next() * 2 ** 20 + (next() >>> 12) + 0.5) / 2 ** 52);
        }
      }
    },
  );
});

describe("the shape of the numbers", () => {
  const u = draw(uniforms);
  const z = draw(normals);

  test("uniforms lie in the open interval (0, 1), on the centres of 2⁵² cells", () => {
    for (const x of u) if (!(x > 0 && x < 1) || !Number.isInteger(x * 2 ** 52 - 0.5)) expect.fail(`${x}`);
  });

  test("moments of uniforms: 1/2, 1/3, 1/4, 1/5", () => {
    for (const k of [1, 2, 3, 4]) {
      const error = Math.sqrt((1 / (2 * k + 1) - 1 / ((k + 1) * (k + 1))) / DRAWS);
      expect(Math.abs(mean(u, (x) => x ** k) - 1 / (k + 1))).toBeLessThan(STANDARD_ERRORS * error);
    }
  });

  test("moments of normals: 0, 1, 0, 3, 0, 15", () => {
    const moments = [1, 0, 1, 0, 3, 0, 15, 0, 105, 0, 945, 0, 10395];
    for (const k of [1, 2, 3, 4, 5, 6]) {
      const error = Math.sqrt((moments[2 * k]! - moments[k]! * moments[k]!) / DRAWS);
      expect(Math.abs(mean(z, (x) => x ** k) - moments[k]!), `${k}`).toBeLessThan(STANDARD_ERRORS * error);
    }
  });

  test.each([
    ["uniforms", u, (x: number) => x],
    ["normals", z, normalDistributionFunction],
  ] as const)("%s follow their distribution function (Kolmogorov–Smirnov)", (_, values, F) => {
    const sorted = values.slice().sort();
    let distance = 0;
    for (let i = 0; i < DRAWS; i++) {
      const p = F(sorted[i]!);
      distance = Math.max(distance, (i + 1) / DRAWS - p, p - i / DRAWS);
    }
    // Kolmogorov's limit law: P(√n·D > z) < 2·exp(−2z²).
    expect(distance).toBeLessThan(Math.sqrt(Math.log(2 / FALSE_ALARM) / 2 / DRAWS));
  });

  test("each of the 52 bits of a uniform is set half of the time", () => {
    const set = new Float64Array(52);
    for (const x of u) {
      let n = Math.floor(x * 2 ** 52);
      for (let bit = 0; bit < 52; bit++) {
        set[bit]! += n % 2;
        n = Math.floor(n / 2);
      }
    }
    for (const count of set) expect(Math.abs(count - DRAWS / 2)).toBeLessThan((STANDARD_ERRORS * Math.sqrt(DRAWS)) / 2);
  });

  test("normals beyond the ziggurat's table are as many as they should be, on either side", () => {
    const TAIL = 3.6541528853610088;
    const expected = DRAWS * normalDistributionFunction(-TAIL);
    for (const side of [-1, 1]) {
      const tail = z.filter((x) => side * x > TAIL);
      expect(Math.abs(tail.length - expected)).toBeLessThan(STANDARD_ERRORS * Math.sqrt(expected));
    }
  });
});

const square = (x: number): number => x * x;
const same = (x: number): number => x;

function correlation(a: Float64Array, b: Float64Array): number {
  const [ma, mb] = [mean(a, (x) => x), mean(b, (x) => x)];
  let [ab, aa, bb] = [0, 0, 0];
  for (let i = 0; i < a.length; i++) {
    ab += (a[i]! - ma) * (b[i]! - mb);
    aa += (a[i]! - ma) ** 2;
    bb += (b[i]! - mb) ** 2;
  }
  return ab / Math.sqrt(aa * bb);
}

describe("independence", () => {
  const few = 40;
  const n = few * BLOCK_TRIALS;
  const pairs: [string, Float64Array, Float64Array][] = [];
  for (const [name, fill] of [
    ["uniforms", uniforms],
    ["normals", normals],
  ] as const) {
    const base = draw(fill, "1", "x", 0, 0, few);
    pairs.push(
      [`${name}: neighbouring seeds`, base, draw(fill, "2", "x", 0, 0, few)],
      [`${name}: seed 1 and 11`, base, draw(fill, "11", "x", 0, 0, few)],
      [`${name}: inputs`, base, draw(fill, "1", "y", 0, 0, few)],
      [`${name}: inputs that share a beginning`, base, draw(fill, "1", "x1", 0, 0, few)],
      [`${name}: neighbouring channels`, base, draw(fill, "1", "x", 1, 0, few)],
      [`${name}: channels 0 and 4`, base, draw(fill, "1", "x", 4, 0, few)],
      [`${name}: neighbouring blocks`, base, draw(fill, "1", "x", 0, 1, few)],
      [`${name}: blocks 2³² apart`, base, draw(fill, "1", "x", 0, 2 ** 32, few)],
      [`${name}: neighbouring draws`, base.subarray(0, n - 1), base.subarray(1)],
      [`${name}: draws of neighbouring trials of one lane`, base.subarray(0, n - 4), base.subarray(4)],
    );
  }
  pairs.push([
    "uniforms and normals of neighbouring channels",
    draw(uniforms, "1", "x", 0, 0, few),
    draw(normals, "1", "x", 1, 0, few),
  ]);

  test.each(pairs)("%s: no correlation of values, squares or one with the other's square", (_, a, b) => {
    for (const [f, g] of [
      [same, same],
      [square, square],
      [same, square],
      [square, same],
    ] as const) {
      // r of independent columns is nearly normal with standard deviation 1/√n.
      expect(Math.abs(correlation(a.map(f), b.map(g)))).toBeLessThan(STANDARD_ERRORS / Math.sqrt(a.length));
    }
    // Not one number in common place: two equal doubles of 52 bits have odds of 1e5/2⁵².
    expect(a.findIndex((x, i) => x === b[i])).toBe(-1);
  });

  test("seed and name are not run together: seed 1, input 1x is not seed 11, input x", () => {
    expect(draw(uniforms, "1", "1x", 0, 0, 1)).not.toEqual(draw(uniforms, "11", "x", 0, 0, 1));
    expect(draw(uniforms, "1|1", "x", 0, 0, 1)).not.toEqual(draw(uniforms, "1", "1|x", 0, 0, 1));
  });
});

describe("dividing the work changes no draw", () => {
  test.each([
    ["uniforms", uniforms],
    ["normals", normals],
  ] as const)("%s: a prefix is a prefix, blocks in any order", (_, fill) => {
    const whole = draw(fill, "s", "x", 3, 0, 4);
    const open = blockGenerator.open("s", "x");
    for (const block of [3, 0, 2, 1, 3]) {
      for (const count of [1, 2, 3, 5, 1001, BLOCK_TRIALS]) {
        const out = new Float64Array(count);
        fill(open(block), 3, out, count);
        expect(out).toEqual(whole.subarray(block * BLOCK_TRIALS, block * BLOCK_TRIALS + count));
      }
    }
  });

  test("a trial's own sequence starts anew each time and differs from every neighbour's", () => {
    const from = blockGenerator.open("s", "x")(5);
    const take = (channel: number, index: number): number[] => {
      const sequence = from.sequence(channel, index);
      return Array.from({ length: 5 }, () => sequence.uniform());
    };
    const seen = new Map<number, string>();
    for (const channel of [0, 1, 31]) {
      for (const index of [0, 1, 2, 2499]) {
        const first = take(channel, index);
        take(channel, index + 1);
        expect(take(channel, index)).toEqual(first);
        for (const u of first) {
          expect(seen.get(u), `channel ${channel}, index ${index}`).toBeUndefined();
          seen.set(u, `${channel}/${index}`);
        }
      }
    }
  });

  test("sequences of normals and uniforms have the right moments", () => {
    const from = blockGenerator.open("s", "x")(0);
    const [u, z] = [new Float64Array(25_000), new Float64Array(25_000)];
    for (let i = 0; i < 2500; i++) {
      const sequence = from.sequence(2, i);
      for (let k = 0; k < 10; k++) {
        u[10 * i + k] = sequence.uniform();
        z[10 * i + k] = sequence.normal();
      }
    }
    expect(Math.abs(mean(u, (x) => x) - 0.5)).toBeLessThan(STANDARD_ERRORS * Math.sqrt(1 / 12 / 25_000));
    expect(Math.abs(mean(z, (x) => x))).toBeLessThan(STANDARD_ERRORS / Math.sqrt(25_000));
    expect(Math.abs(mean(z, (x) => x * x) - 1)).toBeLessThan(STANDARD_ERRORS * Math.sqrt(2 / 25_000));
  });
});
