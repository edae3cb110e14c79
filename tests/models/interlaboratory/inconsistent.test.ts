// Laboratories that do not agree: largest consistent subset and median against NumPy (tests/reference/laboratories.py: every
// subset tried, ten million trials), and differences with their uncertainties for members and others.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import {
  chiSquareAbove,
  degreesOfEquivalence,
  evaluateLaboratories,
  largestConsistentSubset,
  MEDIAN_PROBABILITY,
  medianReference,
  randomEffects,
  readLaboratories,
} from "../../../models/index.ts";
import type { LaboratoryResult, ResultCorrelation } from "../../../models/index.ts";

interface Case {
  readonly id: string;
  readonly x: readonly number[];
  readonly u: readonly number[];
  readonly subset: Readonly<Record<"value" | "u" | "chi2" | "p", number>> & {
    readonly members: readonly number[];
    readonly D: readonly number[];
    readonly u_D: readonly number[];
  };
  readonly median: Readonly<Record<"trials" | "value" | "u", number>> & {
    readonly u_D: readonly number[];
    readonly interval_D: readonly (readonly [number, number])[];
  };
}
const folder = join(import.meta.dirname, "../../reference");
const read = (name: string): unknown => JSON.parse(readFileSync(join(folder, name), "utf8"));
const { cases } = read("laboratories.json") as { readonly cases: readonly Case[] };
const sources = read("interlaboratory.json") as readonly {
  readonly id: string;
  readonly inputs?: {
    readonly labels?: readonly string[];
    readonly correlations?: readonly (readonly [string, string, number])[];
  };
}[];
const TRIALS = 40_000;
const relativeTo = (found: number, expected: number): number => Math.abs(found / expected - 1);

describe.each(cases)("$id", ({ id, x, u, subset, median }) => {
  const { labels, correlations: stated = [] } = sources.find((source) => source.id === id)!.inputs!;
  const results = x.map((value, i): LaboratoryResult => ({
    name: labels?.[i] ?? `L${i + 1}`,
    value,
    standardUncertainty: u[i]!,
    inReference: true,
  }));
  const correlations = stated.map(([a, b, coefficient]): ResultCorrelation => ({ between: [a, b], coefficient }));

  test("largest consistent subset, its mean, and differences of members and others", () => {
    const found = largestConsistentSubset(results, correlations, 0.05)!;
    expect(found.members).toEqual(subset.members.map((i) => results[i]!.name));
    expect(found.value).toBeCloseTo(subset.value, 11);
    expect(relativeTo(found.standardUncertainty, subset.u)).toBeLessThan(1e-9);
    expect(relativeTo(found.chiSquare, subset.chi2)).toBeLessThan(1e-8);
    expect(relativeTo(found.probability, subset.p)).toBeLessThan(1e-8);
    degreesOfEquivalence(results, found, correlations).forEach(({ difference, standardUncertainty }, i) => {
      expect(difference).toBeCloseTo(subset.D[i]!, 11);
      expect(relativeTo(standardUncertainty, subset.u_D[i]!)).toBeLessThan(1e-8);
    });
  });

  test("median and differences from it, within five standard errors of trials", () => {
    const found = medianReference(results, correlations, { trials: TRIALS, seed: "median" });
    const root = Math.sqrt(1 / TRIALS + 1 / median.trials);
    expect(Math.abs(found.value - median.value)).toBeLessThan(5 * median.u * root);
    // A standard deviation's own standard error: u·√((κ − 1)/4M), κ at most 6 for these.
    const ofDeviation = 5 * Math.sqrt(5 / 4) * root;
    expect(relativeTo(found.standardUncertainty, median.u)).toBeLessThan(ofDeviation);
    found.laboratories.forEach(({ standardUncertainty, interval }, i) => {
      expect(relativeTo(standardUncertainty, median.u_D[i]!)).toBeLessThan(ofDeviation);
      // The shortest interval's place is known far worse than its length: by trials, to the cube root of M.
      const [low, high] = median.interval_D[i]!;
      expect(relativeTo(interval[1] - interval[0], high - low)).toBeLessThan(0.02);
    });
  });
});

test("the search among the nearest finds what the search among all subsets finds", () => {
  let state = 7;
  const next = (): number => (state = (state * 16_807) % 2_147_483_647) / 2_147_483_647;
  for (let round = 0; round < 40; round++) {
    const results = Array.from({ length: 3 + (round % 6) }, (_, i): LaboratoryResult => ({
      name: `L${i}`,
      value: 8 * next(),
      // Equal uncertainties among them, whose parabolas cross once only.
      standardUncertainty: round % 3 === 0 ? 1 : 0.2 + next(),
      inReference: i !== 1 || round % 2 === 0,
    }));
    // A correlation too small to be seen, which takes the way of correlated results.
    const least: ResultCorrelation[] = [{ between: ["L0", "L2"], coefficient: 1e-15 }];
    const [quick, thorough] = [[], least].map((correlations) => largestConsistentSubset(results, correlations, 0.05));
    expect(quick?.members).toEqual(thorough?.members);
  }
});

test("200 laboratories are searched exactly, and one that does not count stays outside", () => {
  const results = Array.from({ length: 200 }, (_, i): LaboratoryResult => ({
    name: `L${i}`,
    value: i < 150 ? (i % 7) / 10 : 50 + i,
    standardUncertainty: 1 + (i % 5) / 10,
    inReference: i !== 0,
  }));
  const found = largestConsistentSubset(results, [], 0.05)!;
  expect(found.members).toEqual(results.slice(1, 150).map(({ name }) => name));
  expect(found.excluded).toHaveLength(50);
  expect(found.majority).toBe(true);
});

test("no two results that agree: no subset; half of them: no consensus", () => {
  const at = (values: readonly number[]): LaboratoryResult[] =>
    values.map((value, i) => ({ name: `L${i}`, value, standardUncertainty: 1, inReference: true }));
  expect(largestConsistentSubset(at([0, 10, 20]), [], 0.05)).toBeNull();
  expect(largestConsistentSubset(at([0, 1, 20, 40]), [], 0.05)).toMatchObject({
    members: ["L0", "L1"],
    majority: false,
  });
});

describe("a random-effects reference", () => {
  // The uncertainty of D by simulation of the model itself: x_i = μ + λ_i + ε_i; D_i estimates λ_i.
  test("u(D) has the effects of all laboratories in the reference value", () => {
    const u = [1, 2, 0.5, 1.5];
    const results = [0, 9, -7, 4].map((value, i): LaboratoryResult => ({
      name: `L${i}`,
      value,
      standardUncertainty: u[i]!,
      inReference: true,
    }));
    const { weights, between, value } = randomEffects(results, "mandelPaule");
    expect(between).toBeGreaterThan(5);
    degreesOfEquivalence(results, { value, weights, between }).forEach(({ standardUncertainty }, i) => {
      // Var(ε_i − Σ w_j (λ_j + ε_j)), term by term.
      const expected = u.reduce((sum, own, j) => {
        const of = (i === j ? 1 : 0) - weights[j]!;
        return sum + of * of * own * own + (weights[j]! * between) ** 2;
      }, 0);
      expect(standardUncertainty ** 2).toBeCloseTo(expected, 12);
    });
  });
});

test("χ² far out keeps its digits (Abramowitz and Stegun 26.4.4: ν = 2 gives exp(−χ²/2))", () => {
  expect(relativeTo(chiSquareAbove(300, 2), Math.exp(-150))).toBeLessThan(1e-12);
});

describe("what is taken where the χ² test fails", () => {
  const document = (whenInconsistent: string) =>
    readLaboratories({
      title: "t",
      quantity: "q",
      unit: "mK",
      whenInconsistent,
      trials: 10_000,
      laboratories: [
        { name: "a", value: 1, standardUncertainty: 1 },
        { name: "b", value: 2, standardUncertainty: 1 },
        { name: "c", value: 0, standardUncertainty: 1 },
        { name: "d", value: 60, standardUncertainty: 1 },
      ],
    });
  test("a subset: members are correlated with it, the one outside is not", () => {
    const { reference, laboratories } = evaluateLaboratories(document("largestSubset"));
    expect(reference).toMatchObject({ kind: "largest consistent subset" });
    expect(reference.weights).toEqual([1 / 3, 1 / 3, 1 / 3, 0].map((w) => expect.closeTo(w, 12)));
    const squares = laboratories.map(({ differenceUncertainty }) => differenceUncertainty ** 2);
    expect(squares).toEqual([1 - 1 / 3, 1 - 1 / 3, 1 - 1 / 3, 1 + 1 / 3].map((u) => expect.closeTo(u, 12)));
  });
  test("a median: every difference has an interval", () => {
    expect(MEDIAN_PROBABILITY).toBe(0.95);
    const { reference, laboratories } = evaluateLaboratories(document("median"));
    expect(reference.kind).toBe("median");
    expect(reference.value).toBeLessThan(4);
    for (const { interval, difference } of laboratories) {
      expect(interval![0]).toBeLessThan(difference);
      expect(interval![1]).toBeGreaterThan(difference);
    }
  });
  test("random effects by default, with subset and median beside it", () => {
    const found = evaluateLaboratories(document("randomEffects"));
    expect(found.reference.kind).toBe("random effects");
    expect(found.subset!.excluded).toEqual(["d"]);
    expect(found.median!.trials).toBe(10_000);
  });
});
