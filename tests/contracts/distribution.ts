import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readStudy } from "../../engine/index.ts";
import { readStatement, type Distribution, type InputKnowledge } from "../../engine/internal.ts";
import { gammaDistribution } from "../../engine/distributions/gamma.ts";
import { blockGenerator } from "../../engine/random/block-generator.ts";
import { BLOCK_TRIALS } from "../../engine/random/block.ts";
import type { Example } from "./distribution-examples.ts";
import { integrate, integrateFromEnd, integrateOutwards } from "./quadrature.ts";

const DRAWS = 40 * BLOCK_TRIALS;
/**
 * Chance that a right sampler fails one goodness-of-fit test. Seeds are fixed, so a run never changes; the rate is how
 * often a new seed or a new example would raise a false alarm.
 */
const FALSE_ALARM = 1e-6;
/** Five standard errors: a false alarm in 1.7 million. */
const STANDARD_ERRORS = 5;

/** Examples of which a property of the contract is not asked, because it does not exist for them, by property. */
export const notAsked = { moments: 0, spreadOfSample: 0 };
/** Kinds with an upper tail of their own, whose digits the contract has checked. */
export const upperTails = new Set<string>();

/** An assertion of what is asked thousands of times: `expect` takes ten times as long as a distribution function. */
function holds(condition: boolean, otherwise: () => string): void {
  if (!condition) expect.fail(otherwise());
}

/** Properties of every distribution: one suite, run with the examples of each registered kind. */
export function distributionContract({ statement, heavyTails }: Example): void {
  describe(`${statement.distribution}: ${JSON.stringify(statement).slice(0, 120)}`, () => {
    const knowledge: InputKnowledge = readStatement(statement, "inputs.x");
    const distribution = knowledge.distribution;
    const [lower, upper] = distribution.support;

    test("the quantile inverts the distribution function", () => {
      fc.assert(
        fc.property(probability(), (p) => {
          const x = distribution.quantile(p);
          holds(x >= lower && x <= upper, () => `${x} is not within ${lower} to ${upper}`);
          // Otherwise x is the nearest double, so the error is at most the change of F to its neighbours.
          const reach = 8 * spacing(x, distribution);
          const [before, after] = (distribution.discrete ? [below(x), x] : [x - reach, x + reach]).map((at) =>
            distribution.distributionFunction(at),
          ) as [number, number];
          const [least, most] = distribution.discrete ? [p, p] : [p * (1 - 1e-11), p * (1 + 1e-11)];
          holds(after >= least, () => `F is ${after} after ${x}; expected ${least} or more`);
          if (distribution.discrete) holds(before < p, () => `F is ${before} before ${x}; expected less than ${p}`);
          else holds(before <= most, () => `F is ${before} before ${x}; expected ${most} or less`);
        }),
        { seed: 1, numRuns: 300 },
      );
    });

    test("quantile and distribution function rise, from one end of the support to the other", () => {
      expect(distribution.quantile(0)).toBe(lower);
      expect(distribution.quantile(1)).toBe(upper);
      expect(distribution.distributionFunction(lower - Math.abs(lower) - 1)).toBe(0);
      expect(distribution.distributionFunction(upper)).toBe(1);
      const steps = Array.from({ length: 1000 }, (_, i) => distribution.quantile((i + 1) / 1001));
      const functions = steps.map((x) => distribution.distributionFunction(x));
      for (let i = 1; i < steps.length; i++) {
        holds(steps[i]! >= steps[i - 1]!, () => `the quantile falls from ${steps[i - 1]} to ${steps[i]}`);
        holds(functions[i]! >= functions[i - 1]! * (1 - 1e-14), () => `F falls at ${steps[i]}`);
      }
    });

    const { upperTail } = distribution;
    if (upperTail !== undefined) {
      upperTails.add(statement.distribution);
      test("the upper tail is 1 minus the distribution function", () => {
        for (const p of [1e-6, 0.01, 0.3, 0.5, 0.8, 0.99, 1 - 1e-6]) {
          const x = distribution.quantile(p);
          expect(upperTail(x) + distribution.distributionFunction(x)).toBeCloseTo(1, 13);
        }
      });
    }

    if (distribution.discrete) discreteContract(distribution);
    else continuousContract(distribution, heavyTails === true);

    test("the sampler reproduces exactly, bit for bit, and the first draws do not depend on the count", () => {
      const whole = drawBlock(distribution, 7, BLOCK_TRIALS);
      expect(drawBlock(distribution, 7, BLOCK_TRIALS)).toEqual(whole);
      for (const count of [1, 2, 3, 4, 5, 1000, BLOCK_TRIALS - 1]) {
        expect(drawBlock(distribution, 7, count)).toEqual(whole.subarray(0, count));
      }
      // Reading the statement again gives the same draws: no state is kept.
      expect(drawBlock(readStatement(statement, "y").distribution, 7, BLOCK_TRIALS)).toEqual(whole);
    });

    test("the support contains every draw", () => {
      for (const x of draws(distribution))
        holds(x >= lower && x <= upper, () => `${x} is not within ${lower} to ${upper}`);
    });

    if (heavyTails !== undefined) notAsked.spreadOfSample += 1;
    test("mean and standard deviation of a sample are within five standard errors", () => {
      const sample = draws(distribution);
      const { mean, deviation, kurtosis } = momentsBySums(sample);
      if (distribution.mean !== null && Number.isFinite(distribution.standardDeviation!)) {
        const error = distribution.standardDeviation! / Math.sqrt(DRAWS);
        expect(Math.abs(mean - distribution.mean)).toBeLessThanOrEqual(
          STANDARD_ERRORS * error + 1e-15 * Math.abs(mean),
        );
        if (heavyTails === undefined) {
          // GUM annex E.4.3 for normal variates; in general the variance of s is u²(γ₂ + 2)/4M.
          const spread = distribution.standardDeviation! * Math.sqrt((kurtosis - 1) / (4 * DRAWS));
          const granularity = 1e-9 * distribution.standardDeviation!;
          expect(Math.abs(deviation - distribution.standardDeviation!)).toBeLessThanOrEqual(
            STANDARD_ERRORS * spread + granularity,
          );
        }
      } else expect(heavyTails).toBe(true);
    });

    test("the budget line is finite, and is the mean and standard deviation unless the standards differ", () => {
      const { estimate, standardUncertainty, degreesOfFreedom } = knowledge.budget;
      expect(Number.isFinite(estimate)).toBe(true);
      expect(standardUncertainty).toBeGreaterThanOrEqual(0);
      expect(Number.isFinite(standardUncertainty)).toBe(true);
      expect(degreesOfFreedom).toBeGreaterThan(0);
      if (!DIFFER_BY_DEFINITION.has(statement.distribution)) {
        expect(estimate).toBeCloseTo(distribution.mean!, 12);
        expect(standardUncertainty / distribution.standardDeviation! || 1).toBeCloseTo(1, 12);
      }
    });

    test("the statement survives JSON and the study's own checks", () => {
      const document = JSON.parse(JSON.stringify({ title: "t", model: "m", inputs: { x: statement } }));
      expect(readStudy(document).inputs["x"]).toEqual(statement);
    });
  });
}

/**
 * Few readings (JCGM 100, 4.2 against JCGM 101, 6.4.9), data (n − 1 against n), and limits about an estimate that is not
 * their middle (JCGM 100, 4.3.8): the budget differs by definition.
 */
const DIFFER_BY_DEFINITION = new Set(["t", "readings", "sample", "asymmetric-rectangular"]);

function continuousContract(distribution: Distribution, heavyTails: boolean): void {
  test("the density integrates to the distribution function", () => {
    for (const [p, q] of [
      [1e-7, 1e-3],
      [1e-3, 0.1],
      [0.1, 0.37],
      [0.37, 0.5],
      [0.5, 0.9],
      [0.9, 0.99],
      [0.99, 0.999],
      [0.999, 0.9999],
    ] as const) {
      const [from, to] = [distribution.quantile(p), distribution.quantile(q)];
      const expected = distribution.distributionFunction(to) - distribution.distributionFunction(from);
      const rounding = granularity(distribution, from) + granularity(distribution, to);
      expect(Math.abs(integrate(distribution.density, from, to, 1e-12) - expected)).toBeLessThanOrEqual(
        1e-9 + rounding,
      );
    }
  });

  const { mean, standardDeviation } = distribution;
  if (mean === null || standardDeviation === null || !Number.isFinite(standardDeviation)) notAsked.moments += 1;
  else
    test("mean and standard deviation agree with quadrature of the density", () => {
      const scale = standardDeviation;
      const moment = (f: (z: number) => number): number =>
        expectation(distribution, (x) => f((x - mean) / scale), scale);
      // What the rounding of x is worth in probability at the ends, where a density may be infinite, and in deviations.
      const ends = distribution.support.filter(Number.isFinite).map((end) => granularity(distribution, end));
      const rounding = 4 * Math.max(0, ...ends) + (16 * spacing(mean, distribution)) / scale;
      // A t with 3 degrees of freedom has a second moment that converges as 1/x only.
      const tolerance = (heavyTails ? 1e-4 : 1e-6) + rounding;
      expect(Math.abs(moment(() => 1) - 1)).toBeLessThan(1e-6 + rounding);
      expect(Math.abs(moment((z) => z))).toBeLessThan(1e-6 + rounding);
      expect(Math.abs(moment((z) => z * z) - 1)).toBeLessThan(tolerance);
    });

  test("the sampler follows the distribution function (Kolmogorov–Smirnov)", () => {
    const sorted = draws(distribution).sort();
    let distance = 0;
    // Every 16th: F rises, so the greatest distance is missed by at most 16/n, a fiftieth of the limit.
    for (let i = 0; i < DRAWS; i += 16) {
      const F = distribution.distributionFunction(sorted[i]!);
      distance = Math.max(distance, (i + 1) / DRAWS - F, F - i / DRAWS);
    }
    // Kolmogorov's limit law: P(√n·D > z) < 2·exp(−2z²). If few doubles are possible, F has steps.
    const limit = Math.sqrt(Math.log(2 / FALSE_ALARM) / 2 / DRAWS);
    const steps = spacing(sorted[DRAWS - 1]!, distribution) * distribution.density(distribution.quantile(0.4));
    expect(distance).toBeLessThan(limit + steps);
  });
}

function discreteContract(distribution: Distribution): void {
  const atoms = atomsOf(distribution);

  test("the probabilities of the values add to the distribution function", () => {
    let sum = 0;
    for (const x of atoms) {
      const probability = distribution.density(x);
      expect(probability).toBeGreaterThan(0);
      sum += probability;
      expect(Math.abs(sum - distribution.distributionFunction(x))).toBeLessThan(1e-11);
    }
    expect(sum).toBeCloseTo(1, 10);
  });

  test("mean and standard deviation agree with sums over the values", () => {
    const mean = atoms.reduce((sum, x) => sum + x * distribution.density(x), 0);
    const variance = atoms.reduce((sum, x) => sum + (x - mean) * (x - mean) * distribution.density(x), 0);
    expect(mean / distribution.mean!).toBeCloseTo(1, 9);
    expect(Math.abs(Math.sqrt(variance) - distribution.standardDeviation!)).toBeLessThanOrEqual(
      1e-8 * distribution.standardDeviation!,
    );
  });

  test("the sampler follows the probabilities (χ²)", () => {
    const counts = new Map<number, number>();
    for (const x of draws(distribution)) counts.set(x, (counts.get(x) ?? 0) + 1);
    for (const x of counts.keys()) expect(distribution.density(x)).toBeGreaterThan(0);
    // Cells of at least ten expected draws, neighbours merged (common practice).
    let statistic = 0;
    let cells = 0;
    let expected = 0;
    let found = 0;
    for (let i = 0; i < atoms.length; i++) {
      expected += distribution.density(atoms[i]!) * DRAWS;
      found += counts.get(atoms[i]!) ?? 0;
      const rest = (1 - distribution.distributionFunction(atoms[i]!)) * DRAWS;
      if ((expected < 10 || rest < 10) && i < atoms.length - 1) continue;
      statistic += ((found - expected) * (found - expected)) / expected;
      cells += 1;
      expected = 0;
      found = 0;
    }
    if (cells === 1) return;
    // χ² with ν degrees of freedom is gamma of shape ν/2 and scale 2, whose quantiles have references of their own.
    expect(statistic).toBeLessThan(gammaDistribution((cells - 1) / 2, 2).quantile(1 - FALSE_ALARM));
  });
}

/** Probabilities over many orders of magnitude at either end. */
const probability = (): fc.Arbitrary<number> =>
  fc.oneof(
    fc.double({ min: 1e-9, max: 1 - 1e-9, noNaN: true }),
    fc.double({ min: -12, max: -2, noNaN: true }).map((e) => Math.pow(10, e)),
    fc.double({ min: -9, max: -2, noNaN: true }).map((e) => 1 - Math.pow(10, e)),
  );

/** Distance of neighbouring doubles as large as the numbers a value of this distribution is made from. */
function spacing(x: number, { support, mean }: Distribution): number {
  const sizes = [x, ...support, mean ?? 0].filter(Number.isFinite).map(Math.abs);
  return Math.max(...sizes) * 2 ** -52;
}

/** The probability that lies within a few doubles of x. */
const granularity = (distribution: Distribution, x: number): number =>
  distribution.distributionFunction(x + 8 * spacing(x, distribution)) -
  distribution.distributionFunction(x - 8 * spacing(x, distribution));

/** The double below x, near enough: one part in 2⁵². */
const below = (x: number): number => x - Math.max(Math.abs(x) * 2 ** -52, Number.MIN_VALUE);

function drawBlock(distribution: Distribution, block: number, count: number): Float64Array {
  const out = new Float64Array(count);
  distribution.sample(blockGenerator.open("contract", "x")(block), out, count);
  return out;
}

const drawn = new WeakMap<Distribution, Float64Array>();

/** The same draws for every test of a distribution; a copy, since some sort them. */
function draws(distribution: Distribution): Float64Array {
  const made = drawn.get(distribution) ?? drawAll(distribution);
  drawn.set(distribution, made);
  return made.slice();
}

function drawAll(distribution: Distribution): Float64Array {
  const all = new Float64Array(DRAWS);
  const open = blockGenerator.open("contract", "x");
  for (let at = 0; at < DRAWS; at += BLOCK_TRIALS) {
    distribution.sample(open(at / BLOCK_TRIALS), all.subarray(at, at + BLOCK_TRIALS), BLOCK_TRIALS);
  }
  return all;
}

function momentsBySums(sample: Float64Array): { mean: number; deviation: number; kurtosis: number } {
  const shift = sample[0]!;
  const mean = shift + sample.reduce((sum, x) => sum + (x - shift), 0) / DRAWS;
  const second = sample.reduce((sum, x) => sum + (x - mean) ** 2, 0) / DRAWS;
  const fourth = sample.reduce((sum, x) => sum + (x - mean) ** 4, 0) / DRAWS;
  return { mean, deviation: Math.sqrt(second), kurtosis: second === 0 ? 1 : fourth / (second * second) };
}

/** ∫ f·density, in panels between quantiles so that no peak is missed. */
function expectation(distribution: Distribution, f: (x: number) => number, scale: number): number {
  const [lower, upper] = distribution.support;
  const g = (x: number): number => f(x) * distribution.density(x);
  const cuts = [1e-9, 1e-6, 0.001, 0.01, 0.1, 0.25, 0.5, 0.75, 0.9, 0.99, 0.999, 1 - 1e-6, 1 - 1e-9].map((p) =>
    distribution.quantile(p),
  );
  const [first, last] = [cuts[0]!, cuts.at(-1)!];
  let sum = lower === -Infinity ? integrateOutwards(g, first, scale, -1) : integrateFromEnd(g, lower, first - lower);
  sum += upper === Infinity ? integrateOutwards(g, last, scale, 1) : integrateFromEnd(g, upper, last - upper);
  for (let i = 1; i < cuts.length; i++) sum += integrate(g, cuts[i - 1]!, cuts[i]!, 1e-10);
  return sum;
}

/** The values of a discrete distribution in order; those of less than 1e-13, a few dozen at most, are passed over. */
function atomsOf(distribution: Distribution): number[] {
  const atoms = [distribution.quantile(1e-13)];
  for (;;) {
    const reached = distribution.distributionFunction(atoms.at(-1)!);
    if (reached >= 1 - 1e-12) return atoms;
    atoms.push(distribution.quantile(reached + 1e-13));
  }
}
