import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { defineModel, drawTrials, InputError, propagate, type RunRecord, readStudy } from "../../../engine/index.ts";
import { nearestCorrelation } from "../../../engine/dependence/nearest-correlation.ts";
import { fromRanks, fromValues, marginalOf, valueCorrelation } from "../../../engine/dependence/normal-correlation.ts";
import { rectangularDistribution } from "../../../engine/distributions/rectangular.ts";
import { limitsAbout } from "../../../engine/distributions/stated-limits.ts";
import { normalDistribution } from "../../../engine/distributions/normal.ts";
import { tDistribution } from "../../../engine/distributions/student-t.ts";
import { cholesky } from "../../../engine/numerics/cholesky.ts";
import { symmetricEigen } from "../../../engine/numerics/symmetric-eigen.ts";
import { LONG } from "../../setup/long.ts";

const q = (symbol: string) => ({ symbol, meaning: symbol, unit: "1" });
const through = defineModel({
  id: "through",
  title: "Inputs passed through",
  measurands: { a: q("a"), b: q("b"), c: q("c") },
  inputs: { x: q("x"), y: q("y"), z: q("z") },
  evaluate: ({ x, y, z }) => ({ a: x, b: y, c: z }),
});

const kinds = {
  normal: { distribution: "normal", estimate: 1, standardUncertainty: 2 },
  t: { distribution: "t", estimate: 1, standardUncertainty: 2, degreesOfFreedom: 6 },
  rectangular: { distribution: "rectangular", estimate: 0, halfWidth: 1 },
  arcsine: { distribution: "arcsine", estimate: 0, halfWidth: 1 },
  triangular: { distribution: "triangular", estimate: 0, halfWidth: 1 },
} as const;

const run = (x: object, y: object, z: object, correlations: object[], more: object = {}): RunRecord =>
  propagate(
    through,
    readStudy({ title: "t", model: "through", trials: 100_000, inputs: { x, y, z }, correlations, ...more }),
  );

describe("the values have the correlation asked for", () => {
  // Standard error of a sample correlation at 10⁵ trials is at most 1/√M = 0.0032; five of them.
  const five = 0.016;
  test.each([
    ["normal", "normal", 0.7, "multivariate normal"],
    ["t", "t", -0.6, "multivariate t"],
    ["rectangular", "rectangular", 0.9, "Gaussian copula"],
    ["rectangular", "normal", -0.5, "Gaussian copula"],
    ["arcsine", "triangular", 0.8, "Gaussian copula"],
    ["arcsine", "t", 0.3, "Gaussian copula"],
    ["rectangular", "rectangular", 1, "Gaussian copula"],
  ] as const)("%s with %s, r = %d: %s", LONG, (a, b, coefficient, kind) => {
    const { joint, remarks, measurands } = run(kinds[a], kinds[b], kinds.normal, [
      { between: ["x", "y"], coefficient },
    ]);
    expect(joint!.monteCarlo!.correlation[0]![1]).toBeGreaterThan(coefficient - five);
    expect(joint!.monteCarlo!.correlation[0]![1]).toBeLessThan(coefficient + five);
    expect(Math.abs(joint!.monteCarlo!.correlation[0]![2]!)).toBeLessThan(five);
    expect(joint!.linear.correlation[0]![1]).toBeCloseTo(coefficient, 9);
    expect(remarks.join(" ")).toContain(kind);
    // Marginals stay what they were: five standard errors.
    const { standardUncertainty, standardErrors } = measurands["a"]!.monteCarlo;
    const own = {
      normal: 2,
      t: 2 * Math.sqrt(6 / 4),
      rectangular: 1 / Math.sqrt(3),
      arcsine: Math.SQRT1_2,
      triangular: 1 / Math.sqrt(6),
    }[a];
    expect(Math.abs(standardUncertainty! - own)).toBeLessThan(5 * standardErrors.standardUncertainty!);
  });

  test("ranks: Spearman's coefficient of a Gaussian copula is 6/π·asin(ρ/2) (Kruskal 1958)", () => {
    expect(fromRanks(0.5)).toBeCloseTo(2 * Math.sin(Math.PI / 12), 14);
    // For two rectangular quantities values and ranks are the same thing.
    const { joint } = run(kinds.rectangular, kinds.rectangular, kinds.normal, [
      { between: ["x", "y"], coefficient: 0.6, refersTo: "ranks" },
    ]);
    expect(Math.abs(joint!.monteCarlo!.correlation[0]![1]! - 0.6)).toBeLessThan(five);
  });

  test.each([1, -1])("r = %d: the second is the first, made wider, in every trial", (sign) => {
    const study = readStudy({
      title: "t",
      model: "through",
      inputs: {
        x: { distribution: "rectangular", estimate: 5, halfWidth: 1 },
        y: { distribution: "rectangular", estimate: -2, halfWidth: 3 },
        z: kinds.normal,
      },
      correlations: [{ between: ["x", "y"], coefficient: sign }],
    });
    for (const { measurands } of drawTrials(through, study, { trials: 2500 })) {
      const { a, b } = measurands;
      b.forEach((y, t) => expect(Math.abs(y + 2 - sign * 3 * (a[t]! - 5))).toBeLessThan(1e-14));
      expect(new Set(a).size).toBeGreaterThan(2490);
    }
  });

  test("three at once", () => {
    const correlations = [
      { between: ["x", "y"], coefficient: 0.5 },
      { between: ["y", "z"], coefficient: -0.4 },
      { between: ["x", "z"], coefficient: 0.3 },
    ];
    const { joint } = run(kinds.normal, kinds.rectangular, kinds.triangular, correlations);
    [
      [0, 1, 0.5],
      [1, 2, -0.4],
      [0, 2, 0.3],
    ].forEach(([i, j, r]) => expect(Math.abs(joint!.monteCarlo!.correlation[i!]![j!]! - r!)).toBeLessThan(five));
  });
});

describe("correlation of values against that of the normals behind them", () => {
  test("two rectangular quantities: ρ_values = 6/π·asin(ρ/2), in closed form", () => {
    const [a, b] = [
      marginalOf(rectangularDistribution(limitsAbout(3, 2))),
      marginalOf(rectangularDistribution(limitsAbout(-1, 0.1))),
    ];
    for (const ρ of [-1, -0.9, -0.3, 0, 0.2, 0.7, 0.99, 1])
      expect(valueCorrelation(a, b)(ρ)).toBeCloseTo((6 / Math.PI) * Math.asin(ρ / 2), 7);
    expect(fromValues(0.6, a, b, "p")).toBeCloseTo(2 * Math.sin((Math.PI * 0.6) / 6), 6);
  });

  test("rectangular with normal: ρ_values = √(3/π)·ρ, and no more than √(3/π) can be had", () => {
    const [a, b] = [marginalOf(rectangularDistribution(limitsAbout(0, 1))), marginalOf(normalDistribution(0, 1))];
    expect(valueCorrelation(a, b)(0.5)).toBeCloseTo(0.5 * Math.sqrt(3 / Math.PI), 7);
    expect(() => fromValues(0.99, a, b, "correlations.0.coefficient")).toThrow(/from -0\.9772 to 0\.9772/);
  });

  test("a quantity without a standard deviation has none", () => {
    const cauchy = marginalOf(tDistribution(0, 1, 1));
    expect(() => fromValues(0.5, cauchy, cauchy, "p")).toThrow(/refers to ranks/);
  });
});

test("r = 1 between a quantity and itself twice: the linear budget adds them, r = −1 cancels them (JCGM 100, 5.2.2)", () => {
  const sum = defineModel({
    id: "sum",
    title: "s",
    measurands: { s: q("s") },
    inputs: { x: q("x"), y: q("y") },
    evaluate: ({ x, y }) => x + y,
  });
  const of = (coefficient: number) =>
    propagate(sum, {
      title: "t",
      model: "sum",
      trials: 10_000,
      inputs: { x: kinds.normal, y: kinds.normal },
      correlations: [{ between: ["x", "y"], coefficient }],
    }).measurands["s"]!;
  expect(of(1).linear.standardUncertainty).toBeCloseTo(4, 12);
  expect(of(-1).linear.standardUncertainty).toBe(0);
  expect(of(0.5).linear.standardUncertainty).toBeCloseTo(Math.sqrt(12), 12);
  expect(of(0.5).linear.correlatedTerms).toEqual([
    { between: ["x", "y"], coefficient: 0.5, term: 4, share: expect.closeTo(1 / 3, 12) },
  ]);
});

test("effective degrees of freedom: an input on which the measurand does not depend takes no part, correlated or not", () => {
  const correlations = [{ between: ["x", "y"], coefficient: 0.5, refersTo: "ranks" }];
  const [x, y] = [
    { ...kinds.t, degreesOfFreedom: 4 },
    { ...kinds.t, degreesOfFreedom: 9 },
  ];
  const { linear } = run(x, y, kinds.normal, correlations, { trials: 10_000 }).measurands["a"]!;
  expect(linear.effectiveDegreesOfFreedom).toBeCloseTo(4, 12);
});

describe("bad correlations", () => {
  const problem = (
    correlations: object[],
    inputs: [object, object, object] = [kinds.normal, kinds.normal, kinds.normal],
  ) => {
    try {
      run(...inputs, correlations);
    } catch (error) {
      return (error as InputError).problems[0]!;
    }
    return undefined;
  };
  test.each<[string, object[], string, RegExp]>([
    [
      "an unknown input",
      [{ between: ["x", "w"], coefficient: 0.1 }],
      "correlations.0.between",
      /inputs of the model: x, y, z/,
    ],
    [
      "an input with itself",
      [{ between: ["x", "x"], coefficient: 0.1 }],
      "correlations.0.between",
      /two different inputs/,
    ],
    [
      "a pair twice",
      [
        { between: ["x", "y"], coefficient: 0.1 },
        { between: ["y", "x"], coefficient: 0.2 },
      ],
      "correlations.1.between",
      /each pair once/,
    ],
    ["beyond 1", [{ between: ["x", "y"], coefficient: 1.1 }], "correlations.0.coefficient", /at most 1/],
    [
      "readings that are none",
      [{ between: ["x", "y"], coefficient: "readings" }],
      "correlations.0.coefficient",
      /not both stated by the same number of readings/,
    ],
  ])("%s", (_, correlations, place, accepted) => {
    const found = problem(correlations)!;
    expect(found.place).toBe(place);
    expect(found.accepted).toMatch(accepted);
  });

  test("a constant does not vary", () => {
    expect(
      problem(
        [{ between: ["x", "y"], coefficient: 0.5 }],
        [{ distribution: "constant", value: 1 }, kinds.normal, kinds.normal],
      )!.accepted,
    ).toContain("x is a constant");
  });

  test("coefficients that contradict: the smallest eigenvalue, and the nearest matrix", () => {
    const found = problem([
      { between: ["x", "y"], coefficient: 0.9 },
      { between: ["y", "z"], coefficient: 0.9 },
      { between: ["x", "z"], coefficient: -0.9 },
    ])!;
    // Eigenvalues of this matrix are 1.9, 1.9 and −0.8.
    expect(found.value).toContain("-0.800");
    expect(found.accepted).toContain("x–y 0.5000, x–z -0.5000, y–z 0.5000");
  });
});

describe("matrices", () => {
  const square = (n: number) =>
    fc.array(fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: n, maxLength: n }), {
      minLength: n,
      maxLength: n,
    });
  const gram = (a: number[][]): number[][] =>
    a.map((row) => a.map((other) => row.reduce((sum, value, k) => sum + value * other[k]!, 0)));

  test("Cholesky: L·Lᵀ = A for any Gram matrix", () => {
    fc.assert(
      fc.property(square(4), (a) => {
        const matrix = gram(a).map((row, i) => row.map((value, j) => (i === j ? value + 1e-3 : value)));
        const { factor } = cholesky(matrix);
        gram(factor).forEach((row, i) => row.forEach((value, j) => expect(value).toBeCloseTo(matrix[i]![j]!, 10)));
      }),
      { seed: 228 },
    );
  });

  test("eigenvalues: A·v = λ·v, and they add up to the trace", () => {
    fc.assert(
      fc.property(square(5), (a) => {
        const matrix = a.map((row, i) => row.map((value, j) => value + a[j]![i]!));
        const { values, vectors } = symmetricEigen(matrix);
        expect(values.reduce((sum, λ) => sum + λ, 0)).toBeCloseTo(
          matrix.reduce((sum, row, i) => sum + row[i]!, 0),
          10,
        );
        values.forEach((λ, k) =>
          matrix.forEach((row, i) =>
            expect(row.reduce((sum, value, j) => sum + value * vectors[j]![k]!, 0)).toBeCloseTo(λ * vectors[i]![k]!, 9),
          ),
        );
        expect([...values]).toEqual(values.toSorted((x, y) => x - y));
      }),
      { seed: 228 },
    );
  });

  test("the nearest correlation matrix of Higham (2002), section 4: r = 0.7607 and 0.1573", () => {
    const nearest = nearestCorrelation([
      [1, 1, 0],
      [1, 1, 1],
      [0, 1, 1],
    ]);
    expect(nearest[0]![1]).toBeCloseTo(0.7607, 4);
    expect(nearest[0]![2]).toBeCloseTo(0.1573, 4);
    expect(symmetricEigen(nearest).values[0]).toBeGreaterThan(-1e-9);
  });
});

describe("a coefficient of 0 beside others", () => {
  const ties = (zero: readonly [string, string]) => [
    { between: ["x", "y"], coefficient: 0.5 },
    { between: zero, coefficient: 0 },
  ];
  test("in either order it leaves the third input by itself", () => {
    const [one, other, none] = [ties(["y", "z"]), ties(["z", "y"]), ties(["y", "z"]).slice(0, 1)].map(
      (correlations) => run(kinds.normal, kinds.normal, kinds.rectangular, correlations).measurands,
    );
    expect(one).toEqual(none);
    expect(other).toEqual(none);
  });
});

describe("t inputs of equal degrees of freedom: simultaneous readings or separate series", () => {
  const tied = (coefficient: number, more: object = {}) =>
    run(kinds.t, kinds.t, kinds.normal, [{ between: ["x", "y"], coefficient, ...more }], { trials: 100_000 });
  /** Correlation of the squares of the deviations: 0 for independent inputs; with a shared χ² well above 0. */
  const outer = (record: RunRecord): number => record.joint!.monteCarlo!.correlation[0]![1]!;

  test("simultaneous, stated or not: the multivariate t (JCGM 102, 5.3.2)", () => {
    const [stated, usual] = [tied(0.4, { series: "simultaneous" }), tied(0.4)];
    expect(stated.measurands).toEqual(usual.measurands);
    expect(usual.remarks.join(" ")).toContain("multivariate t");
  });

  test(
    "separate: a Gaussian copula with the correlation asked for, which runs on to independence as r goes to 0",
    LONG,
    () => {
      const some = tied(0.4, { series: "separate" });
      expect(some.remarks.join(" ")).toContain("Gaussian copula");
      // Five standard errors at 10⁵ trials.
      expect(Math.abs(outer(some) - 0.4)).toBeLessThan(0.016);
      const sum = (correlations: object[]): number =>
        propagate(
          defineModel({
            id: "sum",
            title: "sum",
            measurands: { a: q("a") },
            inputs: { x: q("x"), y: q("y") },
            evaluate: ({ x, y }) => x + y,
          }),
          readStudy({ title: "t", model: "sum", trials: 100_000, inputs: { x: kinds.t, y: kinds.t }, correlations }),
        ).measurands["a"]!.monteCarlo.excessKurtosis!;
      // A joint t keeps the shape of t with ν = 6 (excess kurtosis 3) for the sum; of two independent ones it is half that.
      const kurtosis = [{ series: "separate" }, { series: "simultaneous" }].map((more) =>
        sum([{ between: ["x", "y"], coefficient: 0.001, ...more }]),
      );
      expect(Math.abs(kurtosis[0]! - 1.5)).toBeLessThan(0.5);
      expect(kurtosis[1]!).toBeGreaterThan(2.3);
    },
  );

  test("the budget's degrees of freedom go with it", () => {
    const total = (series: string) =>
      propagate(
        defineModel({
          id: "sum",
          title: "sum",
          measurands: { a: q("a") },
          inputs: { x: q("x"), y: q("y") },
          evaluate: ({ x, y }) => x + y,
        }),
        readStudy({
          title: "t",
          model: "sum",
          trials: 10_000,
          inputs: { x: kinds.t, y: kinds.t },
          correlations: [{ between: ["x", "y"], coefficient: 0.5, series }],
        }),
      ).measurands["a"]!.linear.effectiveDegreesOfFreedom!;
    expect(total("simultaneous")).toBeCloseTo(6, 9);
    expect(total("separate")).toBeCloseTo(12, 9);
  });

  test("refused where it cannot be", () => {
    const bad = (x: object, y: object, more: object) => () =>
      run(x, y, kinds.normal, [{ between: ["x", "y"], coefficient: 0.4, ...more }]);
    expect(bad(kinds.t, kinds.normal, { series: "simultaneous" })).toThrow(
      /correlations\.0\.series: got "simultaneous"; expected separate, or nothing/,
    );
    const readings = { distribution: "readings", values: [1, 2, 4, 3] };
    expect(bad(readings, readings, { coefficient: "readings", series: "separate" })).toThrow(/correlations\.0\.series/);
  });
});
