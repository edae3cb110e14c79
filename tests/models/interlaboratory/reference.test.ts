// Arithmetic between laboratories against published key comparisons and adjustments (tests/reference/interlaboratory.json:
// `published` is what the document named there prints, `computed` was found by 40-digit arithmetic).
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import {
  degreesOfEquivalence,
  normalisedError,
  pairEquivalence,
  passes,
  randomEffects,
  standingOfZeta,
  weightedMean,
  zetaScore,
} from "../../../models/index.ts";
import type { LaboratoryResult, RandomEffectsMethod } from "../../../models/index.ts";

type Entry = Readonly<Record<string, unknown>> & { readonly id: string };
const entries = JSON.parse(
  readFileSync(join(import.meta.dirname, "../../reference/interlaboratory.json"), "utf8"),
) as readonly Entry[];
const entry = <I, C>(id: string): { readonly inputs: I; readonly computed: C } =>
  entries.find((found) => found.id === id)! as unknown as { inputs: I; computed: C };

interface Values {
  readonly x: readonly number[];
  readonly u: readonly number[];
  readonly labs?: readonly string[];
  readonly labels?: readonly string[];
  readonly inReferenceValue?: readonly boolean[];
  readonly correlations?: readonly (readonly [string, string, number])[];
}
const resultsOf = ({ x, u, labs, labels, inReferenceValue }: Values): LaboratoryResult[] =>
  x.map((value, i) => ({
    name: labs?.[i] ?? labels?.[i] ?? `L${i + 1}`,
    value,
    standardUncertainty: u[i]!,
    inReference: inReferenceValue?.[i] ?? true,
  }));
const close = (found: number, expected: number, relative = 1e-10): void =>
  expect(Math.abs(found - expected)).toBeLessThanOrEqual(relative * Math.abs(expected));

describe("CCM.M-K8.2024, key comparison of kilogram realizations (final report, table 6): Cox's procedure A", () => {
  const { inputs, computed } = entry<
    Values,
    Readonly<Record<string, number>> & { D: number[]; U_D: number[]; E_n: number[] }
  >("weighted-mean-ccm-m-k8-2024");
  const results = resultsOf(inputs);
  const mean = weightedMean(results);

  test("weighted mean, χ² over the nine that make it, Birge ratio", () => {
    close(mean.value, computed["x_R"]!);
    close(mean.standardUncertainty, computed["u_R"]!);
    close(mean.chiSquare, computed["chi2_nine_dof8"]!);
    expect(mean.degreesOfFreedom).toBe(8);
    close(mean.probability, computed["p_nine_dof8"]!);
    close(mean.birgeRatio, computed["birge_ratio_nine"]!);
    // As the report prints them.
    expect(mean.value).toBeCloseTo(-10.7, 1);
    expect(Math.abs(mean.standardUncertainty - 6.4)).toBeLessThan(0.06);
  });

  test("degrees of equivalence, of the laboratory outside the mean too", () => {
    degreesOfEquivalence(results, mean).forEach(({ difference, standardUncertainty }, i) => {
      close(difference, computed.D[i]!);
      close(2 * standardUncertainty, computed.U_D[i]!);
      close(difference / (2 * standardUncertainty), computed.E_n[i]!);
    });
    const pair = pairEquivalence(results, 7, 8);
    close(pair.difference, computed["D_NRC_PTB"]!);
    close(pair.standardUncertainty, computed["u_D_NRC_PTB"]!);
  });

  test("a laboratory inside the mean fails with the right sign of its correlation and would pass with the wrong one", () => {
    const outcome = entry<never, Readonly<Record<string, number>>>("normalised-error-correlated-k8").computed;
    const nrc = results[7]!;
    const { difference, standardUncertainty } = degreesOfEquivalence(results, mean)[7]!;
    close(difference / (2 * standardUncertainty), outcome["E_n_correct"]!);
    expect(passes(difference / (2 * standardUncertainty))).toBe(false);
    const wrong = normalisedError(
      { value: nrc.value, expandedUncertainty: 2 * nrc.standardUncertainty },
      { value: mean.value, expandedUncertainty: 2 * mean.standardUncertainty },
    );
    close(wrong, outcome["E_n_wrong_independent"]!);
    expect(passes(wrong)).toBe(true);
  });

  test("consistent results leave every estimator of the scatter between them at 0", () => {
    for (const method of ["mandelPaule", "derSimonianLaird"] as const) {
      const found = randomEffects(results, method);
      expect(found.between).toBe(0);
      close(found.value, mean.value);
      close(found.standardUncertainty, mean.standardUncertainty);
    }
  });
});

test("E_n and ζ, plain and correlated (ISO 13528:2022, 9.6 and 9.7)", () => {
  const { inputs, computed } = entry<Readonly<Record<string, number>>, Readonly<Record<string, number>>>(
    "en-zeta-invented",
  );
  const { x, u_x, x_pt, u_pt, k, correlation_case: r } = inputs as Record<string, number>;
  const result = { value: x!, standardUncertainty: u_x!, expandedUncertainty: k! * u_x! };
  const assigned = { value: x_pt!, standardUncertainty: u_pt!, expandedUncertainty: k! * u_pt! };
  close(zetaScore(result, assigned), computed["zeta"]!);
  close(normalisedError(result, assigned), computed["E_n"]!);
  close(zetaScore(result, assigned, r), computed["zeta_r"]!);
  close(normalisedError(result, assigned, r), computed["E_n_r"]!);
});

test.each([
  [0, "acceptable"],
  [2, "acceptable"],
  [-2.0001, "warning"],
  [2.9999, "warning"],
  [-3, "action"],
] as const)("ζ of %d: %s (ISO 13528:2022, 9.4)", (zeta, standing) => expect(standingOfZeta(zeta)).toBe(standing));

test("|E_n| of exactly 1 passes", () => {
  expect([passes(1), passes(-1), passes(1 + 1e-15)]).toEqual([true, true, false]);
});

test.each(["chi-squared-planck-2017", "chi-squared-planck-1979-2017"])(
  "%s: χ² of values that agree to the eighth digit keeps its own digits",
  (id) => {
    const { inputs, computed } = entry<
      Values,
      Readonly<Record<"mean" | "u" | "Q" | "dof" | "p" | "birge_ratio", number>>
    >(id);
    const found = weightedMean(resultsOf(inputs));
    close(found.value, computed.mean, 1e-14);
    close(found.standardUncertainty, computed.u);
    // The values themselves are doubles: half a unit of their last place is 6e-9 of the differences.
    close(found.chiSquare, computed.Q, 1e-8);
    expect(found.degreesOfFreedom).toBe(computed.dof);
    close(found.probability, computed.p, 1e-8);
    close(found.birgeRatio, computed.birge_ratio, 1e-8);
  },
);

test.each(["birge-ratio-codata-2010-G", "birge-ratio-codata-2018-2022-G"])(
  "%s: weighted mean with a covariance matrix, internal and external uncertainty",
  (id) => {
    type Figures = Readonly<Record<string, number>>;
    const { inputs, computed } = entry<Values, Readonly<Record<"uncorrelated" | "correlated", Figures>>>(id);
    const results = resultsOf(inputs);
    const correlations = inputs.correlations!.map(([a, b, coefficient]) => ({ between: [a, b] as const, coefficient }));
    for (const [found, expected] of [
      [weightedMean(results), computed.uncorrelated],
      [weightedMean(results, correlations), computed.correlated],
    ] as const) {
      close(found.value, expected["mean"]!, 1e-11);
      close(found.standardUncertainty, expected["u_internal"]!, 1e-9);
      close(found.chiSquare, expected["chi2"]!, 1e-9);
      close(found.birgeRatio, expected["R_B"]!, 1e-9);
      if (expected["u_external"] !== undefined) close(found.externalUncertainty, expected["u_external"], 1e-9);
      expect(found.weights.reduce((sum, weight) => sum + weight, 0)).toBeCloseTo(1, 12);
    }
  },
);

describe("random effects: R. N. Kacker, Metrologia 41 (2004) 132–136, table 1, first row", () => {
  interface Estimate {
    readonly tau: number;
    readonly mean: number;
    readonly u: number;
  }
  const { inputs, computed } = entry<
    { readonly x: readonly number[]; readonly variance: readonly number[] },
    { readonly estimators: Readonly<Record<string, Estimate>> }
  >("random-effects-kacker-2004");
  const results = resultsOf({ x: inputs.x, u: inputs.variance.map(Math.sqrt) });
  test.each<[RandomEffectsMethod, string, number | null]>([
    ["mandelPaule", "Mandel-Paule", 0.8399],
    ["cochran", "Cochran anova", 1.1837],
    ["twoStep", "two-step from anova", 0.9352],
    // The table prints 0.5359; 0.5367 is what the formula gives, and another library too.
    ["derSimonianLaird", "DerSimonian-Laird", null],
  ])("%s", (method, name, printed) => {
    const found = randomEffects(results, method);
    const expected = computed.estimators[name]!;
    close(found.between, expected.tau);
    close(found.value, expected.mean);
    close(found.standardUncertainty, expected.u);
    if (printed !== null) expect(Math.abs(found.between - printed)).toBeLessThanOrEqual(0.00005);
  });
});

test("random effects of thirteen trials that scatter widely", () => {
  type Figures = Readonly<Record<"tau2" | "mean" | "se", number>>;
  const { computed } = entry<
    never,
    { readonly x: number[]; readonly v: number[]; readonly DL: Figures; readonly PM: Figures }
  >("random-effects-bcg");
  const results = resultsOf({ x: computed.x, u: computed.v.map(Math.sqrt) });
  for (const [method, expected] of [
    ["derSimonianLaird", computed.DL],
    ["mandelPaule", computed.PM],
  ] as const) {
    const found = randomEffects(results, method);
    close(found.between ** 2, expected.tau2, 1e-9);
    close(found.value, expected.mean, 1e-9);
    close(found.standardUncertainty, expected.se, 1e-9);
  }
});
