import { expect, test } from "vitest";
import { normalDensity, normalDistributionFunction } from "../../../engine/numerics/standard-normal.ts";
import { drawNormal, edges, finishNormal, heights, LAYERS, TAIL } from "../../../engine/random/ziggurat.ts";
import { blockGenerator } from "../../../engine/random/block-generator.ts";

const ROOT_TWO_PI = Math.sqrt(2 * Math.PI);

test("1024 layers of equal area, the lowest with the tail, the uppermost ending at the peak (Marsaglia & Tsang 2000)", () => {
  // ∫ exp(−x²/2) beyond TAIL, from the distribution function, whose tail has references of its own.
  const tail = ROOT_TWO_PI * normalDistributionFunction(-TAIL);
  const area = TAIL * ROOT_TWO_PI * normalDensity(TAIL) + tail;
  // tests/reference/ziggurat.py, which finds the published figures for 256 layers too.
  expect(area / 0.001226324646353088).toBeCloseTo(1, 10);
  expect((edges[0]! * heights[1]!) / area).toBeCloseTo(1, 10);
  for (let i = 1; i < LAYERS; i++)
    expect((edges[i]! * (heights[i + 1]! - heights[i]!)) / area, `layer ${i}`).toBeCloseTo(1, 9);
  expect(edges[LAYERS]).toBe(0);
  expect(heights[LAYERS]).toBe(1);
});

test("layers narrow upwards, and each height is the density at its edge", () => {
  for (let i = 0; i < LAYERS; i++) {
    expect(edges[i + 1]).toBeLessThan(edges[i]!);
    expect(heights[i]! / (ROOT_TWO_PI * normalDensity(edges[i]!))).toBeCloseTo(1, 14);
  }
});

test("draws beyond the table follow the normal tail, of the sign asked for (Kolmogorov–Smirnov)", () => {
  const count = 20_000;
  const sequence = blockGenerator.open("tail", "x")(0).sequence(0, 0);
  // Layer 0 is left at a position beyond TAIL.
  const far = Float64Array.from({ length: count }, () => finishNormal(0, -4.1, sequence.uniform)).sort();
  expect(far[count - 1]!).toBeLessThan(-TAIL);
  let distance = 0;
  for (let i = 0; i < count; i++) {
    const F = normalDistributionFunction(far[i]!) / normalDistributionFunction(-TAIL);
    distance = Math.max(distance, (i + 1) / count - F, F - i / count);
  }
  // False-alarm rate 1e-6 by Kolmogorov's limit law.
  expect(distance).toBeLessThan(Math.sqrt(Math.log(2e6) / 2 / count));
  expect(finishNormal(0, 4.1, sequence.uniform)).toBeGreaterThan(TAIL);
});

test("whole draws from a source of uniforms are standard normal (Kolmogorov–Smirnov)", () => {
  const count = 16_000;
  const from = blockGenerator.open("whole", "x")(0);
  const z = Float64Array.from({ length: count }, (_, i) => drawNormal(from.sequence(0, i % 2500).uniform));
  // 2500 sequences only: the rest repeat them, so the distinct ones are judged.
  const sorted = z.subarray(0, 2500).slice().sort();
  let distance = 0;
  for (let i = 0; i < 2500; i++) {
    const F = normalDistributionFunction(sorted[i]!);
    distance = Math.max(distance, (i + 1) / 2500 - F, F - i / 2500);
  }
  expect(distance).toBeLessThan(Math.sqrt(Math.log(2e6) / 2 / 2500));
  expect(z.subarray(2500, 5000)).toEqual(z.subarray(0, 2500));
});
