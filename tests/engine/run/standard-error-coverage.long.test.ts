// @module-tag long
// Whether claimed standard errors of y, u(y) and both endpoints cover, case by case (some minutes).
import { describe, expect, test } from "vitest";
import { coveredBy, DISTRIBUTIONS, FIGURES } from "./standard-error-coverage.ts";

/**
 * Of 2000 seeds, a count lies outside 93 % to 97 % with probability 6·10⁻⁵ at a true 95 % (binomial; of 200 seeds in 14 %
 * of cases). With 250 trials beyond an endpoint the spacing of their ranks is known to an eighth of itself, so that 1.96
 * standard errors cover 94.2 %, and a count lies below 93 % in 1.4 % of cases: the seeds are fixed. Runs of 50 000 trials
 * cost five times as much; of 800 seeds of these, a count lies outside 92 % to 97.5 % with probability 5·10⁻⁴.
 */
const SEEDS = 2000;

describe.each([
  { probability: 0.95, trials: 10_000, seeds: SEEDS, least: 0.93, most: 0.97 },
  { probability: 0.99, trials: 50_000, seeds: 800, least: 0.92, most: 0.975 },
] as const)("p = $probability, $trials trials: 250 beyond each endpoint", ({ least, most, ...runs }) => {
  test.each(DISTRIBUTIONS)("%s", { timeout: 600_000 }, (name, statement) => {
    coveredBy(name, statement, runs).forEach(({ claimed, covered }, f) => {
      const missing = FIGURES[f] === "u(y)" && name === "t, ν = 3";
      expect([FIGURES[f], claimed]).toEqual([FIGURES[f], missing ? 0 : runs.seeds]);
      if (!missing) expectWithin(FIGURES[f]!, covered / claimed, least, most);
    });
  });
});

// Fewest beyond an endpoint that a verdict is given with. The spacing is then known to a fifth of itself.
test.each(DISTRIBUTIONS)(
  "50 trials beyond each endpoint: %s covers 91 % to 97 %",
  { timeout: 600_000 },
  (name, statement) => {
    const [, , low, high] = coveredBy(name, statement, { probability: 0.99, trials: 10_000, seeds: SEEDS });
    expectWithin("lower endpoint", low!.covered / SEEDS, 0.91, 0.97);
    expectWithin("upper endpoint", high!.covered / SEEDS, 0.91, 0.97);
  },
);

// Stopping on a small spread would select runs that know too little.
test("an adaptive run that has settled covers as well", { timeout: 600_000 }, () => {
  const counts = coveredBy("normal", DISTRIBUTIONS[0]![1], { probability: 0.95, trials: "adaptive", seeds: 400 });
  // 400 seeds: outside 91 % to 98 % with probability 5·10⁻⁴.
  counts.forEach(({ covered }, f) => expectWithin(FIGURES[f]!, covered / 400, 0.91, 0.98));
});

function expectWithin(figure: string, share: number, low: number, high: number): void {
  expect([figure, share >= low && share <= high, share]).toEqual([figure, true, share]);
}
