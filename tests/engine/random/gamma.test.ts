import { describe, expect, test } from "vitest";
import { lowerGamma } from "../../../engine/numerics/incomplete-gamma.ts";
import { blockGenerator } from "../../../engine/random/block-generator.ts";
import { gammaSampler, logarithmicGammaSampler } from "../../../engine/random/gamma.ts";
import { guideTable } from "../../../engine/random/guide-table.ts";
import { BLOCK_TRIALS } from "../../../engine/random/block.ts";

const BLOCKS = 20;
const DRAWS = BLOCKS * BLOCK_TRIALS;

function draws(sampler: ReturnType<typeof gammaSampler>, channel = 0): Float64Array {
  const all = new Float64Array(DRAWS);
  const open = blockGenerator.open("gamma", "x");
  for (let b = 0; b < BLOCKS; b++)
    sampler(open(b), channel, all.subarray(b * BLOCK_TRIALS, (b + 1) * BLOCK_TRIALS), BLOCK_TRIALS);
  return all;
}

describe.each([0.05, 0.3, 0.5, 0.999, 1, 1.5, 4.5, 30, 1e4])("shape %d", (shape) => {
  test.each([0, 7])(
    "channel %d: follows the incomplete gamma function (Kolmogorov–Smirnov, false-alarm rate 1e-6)",
    (channel) => {
      const sorted = draws(gammaSampler(shape), channel).sort();
      let distance = 0;
      for (let i = 0; i < DRAWS; i++) {
        const F = lowerGamma(shape, sorted[i]!);
        distance = Math.max(distance, (i + 1) / DRAWS - F, F - i / DRAWS);
      }
      expect(distance).toBeLessThan(Math.sqrt(Math.log(2e6) / 2 / DRAWS));
    },
  );

  test("the mean of the logarithms is the digamma function of the shape", () => {
    const logarithms = draws(logarithmicGammaSampler(shape));
    const mean = logarithms.reduce((sum, x) => sum + x, 0) / DRAWS;
    // ψ(a) by its recurrence and asymptotic series (Abramowitz & Stegun 6.3.5, 6.3.18); the variance is ψ′(a) (6.4.10).
    let a = shape;
    let [digamma, trigamma] = [0, 0];
    for (; a < 30; a++) {
      digamma -= 1 / a;
      trigamma += 1 / (a * a);
    }
    digamma += Math.log(a) - 1 / (2 * a) - 1 / (12 * a * a) + 1 / (120 * a ** 4);
    trigamma += 1 / a + 1 / (2 * a * a) + 1 / (6 * a ** 3) - 1 / (30 * a ** 5);
    expect(Math.abs(mean - digamma)).toBeLessThan(5 * Math.sqrt(trigamma / DRAWS));
  });
});

test("logarithms of gamma variates stay finite where the variates themselves vanish", () => {
  for (const x of draws(logarithmicGammaSampler(1e-3))) if (!Number.isFinite(x)) expect.fail(`${x}`);
});

test("a guide table finds the least place whose cumulative probability reaches u", () => {
  const cumulative = Float64Array.of(0, 0.1, 0.1, 0.1000001, 0.7, 0.7, 1);
  const place = guideTable(cumulative);
  const obvious = (u: number): number => cumulative.findIndex((c) => c >= u);
  for (let i = 1; i < 10_000; i++) expect(place(i / 10_000)).toBe(obvious(i / 10_000));
  for (const u of [...cumulative].filter((c) => c > 0 && c < 1)) {
    expect(place(u)).toBe(obvious(u));
    expect(place(u + 2 ** -53)).toBe(obvious(u + 2 ** -53));
  }
  expect(guideTable(Float64Array.of(1))(0.5)).toBe(0);
});
