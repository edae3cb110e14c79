// Control variates (S. S. Lavenberg, P. D. Welch, Management Science 27(3), 1981, 322; T. C. Hesterberg, B. L. Nelson,
// Management Science 44(9), 1998, 1295; from memory): figures and standard errors held to the truth by seeds.
import { describe, expect, test } from "vitest";
import { propagate, readStudy } from "../../../engine/index.ts";
import { exponential, square, unrelated, type KnownModel } from "./models.ts";
import { FIGURES, heldBySeeds } from "./paired-seeds.ts";
import { LONG } from "../../setup/long.ts";

const SEEDS = 400;
const TRIALS = 5000;
/** Three standard deviations of the part of seeds that hold the truth, where 95 % do. */
const LATITUDE = 3 * Math.sqrt((0.05 * 0.95) / SEEDS);

const ends = ["low", "high"] as const;

describe(`the truth lies within 1.96 standard errors for 95 % of ${SEEDS} seeds`, () => {
  test.each([square(0.01), square(0.1), square(1), square(3), unrelated])("$title", LONG, (known) => {
    const held = heldBySeeds(known, SEEDS, TRIALS);
    for (const end of ends) {
      expect(held[end].covered, end).toBeGreaterThan(0.95 - LATITUDE);
      expect(held[end].covered, end).toBeLessThan(0.95 + LATITUDE);
    }
    expect(held.estimate.covered).toBeGreaterThan(0.95 - LATITUDE);
    // Of squares of squares 5000 trials know the scatter poorly: a few per cent are missing, as of the plain u(y).
    expect(held.standardUncertainty.covered).toBeGreaterThan(0.95 - LATITUDE - 0.02);
    // Never more than the plain standard error, but for what either is known to from so few trials.
    for (const figure of FIGURES) expect(held[figure].gain, figure).toBeGreaterThan(0.95);
  });

  // Of a curve of one input the endpoints follow from those of the input; what is left is the bend within a window.
  test.each([exponential(0.1), exponential(1)])("or for more of them: $title", LONG, (known) => {
    const held = heldBySeeds(known, SEEDS, TRIALS);
    for (const end of ends) expect(held[end].covered, end).toBeGreaterThan(0.95 - LATITUDE);
  });
});

test("the gentler the curvature, the less scatter; without a relation it is the plain one", () => {
  const gain = (known: KnownModel): number => heldBySeeds(known, 20, 20_000).low.gain;
  expect(gain(square(0.001))).toBeGreaterThan(50);
  expect(gain(square(0.01))).toBeGreaterThan(5);
  expect(gain(square(0.1))).toBeGreaterThan(2);
  expect(Math.abs(gain(unrelated) - 1)).toBeLessThan(0.2);
});

const inputs = {
  a: { distribution: "normal", estimate: 0, standardUncertainty: 1 },
  b: { distribution: "rectangular", estimate: 0, halfWidth: 1.63145801508 },
};
const sum = {
  ...square(0).model,
  evaluate: ({ a, b }: Readonly<Record<string, number>>) => a! + b!,
} as KnownModel["model"];

test("of a linear model the endpoints are the exact ones, whatever the seed", () => {
  for (const seed of ["1", "2", "3"]) {
    const { paired } = propagate(sum, readStudy({ title: "t", model: "known", inputs, trials: 10_000, seed }))
      .measurands["y"]!;
    if (paired?.kind !== "figures") throw new Error("no paired figures");
    // 1.63145801508 was solved for so that d = 0.05 at both endpoints; y = 0 and u² = 1 + h²/3 by hand.
    expect(paired.dLow).toBeCloseTo(0.05, 9);
    expect(paired.dHigh).toBeCloseTo(0.05, 9);
    expect(paired.estimate).toBeCloseTo(0, 12);
    expect(paired.standardUncertainty).toBeCloseTo(Math.sqrt(1 + 1.63145801508 ** 2 / 3), 9);
    expect(Math.max(...paired.standardErrors.interval)).toBeLessThan(1e-6);
  }
});
