import { describe, expect, test } from "vitest";
import { InputError, readStudy, type Statement } from "../../../engine/index.ts";
import { readStatement } from "../../../engine/internal.ts";

/** The message about a statement: from the schema, otherwise from the kind. */
function complaint(statement: object): string {
  try {
    const study = readStudy({ title: "t", model: "m", inputs: { x: statement } });
    readStatement(study.inputs["x"]!, "inputs.x");
  } catch (error) {
    if (error instanceof InputError) return error.message;
    throw error;
  }
  return "accepted";
}

const normal = { distribution: "normal", estimate: 0, standardUncertainty: 1 };
const constant = { distribution: "constant", value: 1 };

describe("a statement that cannot be used names the field, the value and what is expected", () => {
  test.each<[object, string]>([
    [{ distribution: "normal", estimate: 1 }, "inputs.x.standardUncertainty: got nothing"],
    [
      { distribution: "normal", estimate: 1, standardUncertainty: 0 },
      "inputs.x.standardUncertainty: got 0; expected a number greater than 0",
    ],
    [
      { distribution: "rectangular", lower: 2, upper: 1 },
      "inputs.x.lower: got 2; expected a number less than upper (1)",
    ],
    [{ distribution: "rectangular", lower: 1, upper: 1 }, "inputs.x.lower: got 1"],
    [{ distribution: "rectangular", lower: 1 }, "inputs.x.upper: got nothing"],
    [{ distribution: "rectangular", estimate: 1e6, halfWidth: 1e-12 }, "inputs.x.halfWidth: got 1e-12"],
    [{ distribution: "rectangular", estimate: 1, halfWidth: 1, lower: 0 }, "not both"],
    [
      { distribution: "trapezoidal", lower: 0, upper: 1, topRatio: 1 },
      "inputs.x.topRatio: got 1; expected a number less than 1",
    ],
    [
      { distribution: "curvilinear-trapezoid", lower: 0, upper: 1, limitHalfWidth: 0.5 },
      "inputs.x.limitHalfWidth: got 0.5",
    ],
    [
      { distribution: "t", estimate: 0, standardUncertainty: 1, degreesOfFreedom: 0.4 },
      "inputs.x.degreesOfFreedom: got 0.4; expected a number at least 0.5",
    ],
    [{ distribution: "readings", values: [1] }, "inputs.x.values"],
    [{ distribution: "readings", values: [1, 1, 1] }, "not all equal"],
    [
      { distribution: "readings", values: [1, 2], pooledStandardDeviation: 1 },
      "inputs.x.pooledDegreesOfFreedom: got nothing",
    ],
    [
      { distribution: "exponential", estimate: 0 },
      "inputs.x.estimate: got 0; expected a number greater than lower (0)",
    ],
    [{ distribution: "exponential", estimate: 3, lower: 4 }, "inputs.x.estimate: got 3"],
    [{ distribution: "gamma" }, "inputs.x.count: got nothing"],
    [{ distribution: "gamma", count: 1.5 }, "inputs.x.count: got 1.5; expected a whole number"],
    [{ distribution: "gamma", count: -1 }, "inputs.x.count: got -1"],
    [{ distribution: "gamma", count: 1, shape: 2 }, "inputs.x.shape: got 2"],
    [{ distribution: "gamma", shape: 2 }, "inputs.x.scale: got nothing"],
    [{ distribution: "beta" }, "inputs.x: got nothing; expected either lowerShape and upperShape"],
    [{ distribution: "beta", lowerShape: 1 }, "inputs.x.upperShape: got nothing"],
    [{ distribution: "beta", lower: 0, lowerShape: 1, upperShape: 1 }, "inputs.x.upper: got nothing"],
    [{ distribution: "beta", estimate: 1.5, standardUncertainty: 0.1 }, "inputs.x.estimate: got 1.5"],
    [{ distribution: "beta", estimate: 0.5, standardUncertainty: 0.5 }, "the largest that these limits allow"],
    [{ distribution: "beta", estimate: 0.5, standardUncertainty: 1e-9 }, "state a normal distribution"],
    [{ distribution: "log-normal" }, "inputs.x: got nothing"],
    [{ distribution: "log-normal", estimate: -1, standardUncertainty: 1 }, "inputs.x.estimate: got -1"],
    [{ distribution: "log-normal", logarithmMean: 0 }, "inputs.x.logarithmStandardDeviation: got nothing"],
    [
      { distribution: "log-normal", logarithmMean: 0, logarithmStandardDeviation: 40 },
      "inputs.x.logarithmStandardDeviation: got 40",
    ],
    [{ distribution: "truncated-normal", estimate: 0, standardUncertainty: 1 }, "inputs.x.lower: got nothing"],
    [
      { distribution: "truncated-normal", estimate: 0, standardUncertainty: 1, lower: 3, upper: 2 },
      "inputs.x.lower: got 3",
    ],
    [{ distribution: "truncated-normal", estimate: 0, standardUncertainty: 1, lower: 40 }, "inputs.x.lower: got 40"],
    [{ distribution: "asymmetric-triangular", lower: 0, mode: 2, upper: 1 }, "inputs.x.mode: got 2"],
    [{ distribution: "asymmetric-rectangular", lower: 0, estimate: -1, upper: 1 }, "inputs.x.estimate: got -1"],
    [{ distribution: "poisson", estimate: 1e9 }, "inputs.x.estimate: got 1000000000"],
    [{ distribution: "discrete", values: [1, 2], probabilities: [1] }, 'inputs.x.probabilities: got "1 entries"'],
    [{ distribution: "discrete", values: [1, 2], probabilities: [0.5, 0.4] }, "a sum of 0.9"],
    [
      { distribution: "discrete", values: [1, 2], probabilities: [1.5, -0.5] },
      "inputs.x.probabilities.1: got -0.5; expected a number at least 0",
    ],
    [{ distribution: "sample", values: [1] }, "inputs.x.values"],
    [{ distribution: "sample", values: [2, 2] }, "not all equal"],
    [
      { distribution: "tabulated-density", values: [0, 1], densities: [1, -1] },
      "inputs.x.densities.1: got -1; expected a number at least 0",
    ],
    [{ distribution: "tabulated-density", values: [0, 1], densities: [3, 3] }, "an integral of 3"],
    [{ distribution: "tabulated-density", values: [0, 0], densities: [1, 1] }, "inputs.x.values.1: got 0"],
    [{ distribution: "tabulated-density", values: [0, 1, 2], densities: [1, 1] }, "inputs.x.densities"],
    [
      { distribution: "tabulated-distribution", values: [0, 1], probabilities: [0.1, 1] },
      "inputs.x.probabilities.0: got 0.1",
    ],
    [
      { distribution: "tabulated-distribution", values: [0, 1], probabilities: [0, 0.9] },
      "inputs.x.probabilities.1: got 0.9",
    ],
    [
      { distribution: "tabulated-distribution", values: [0, 1, 2, 3], probabilities: [0, 0.6, 0.5, 1] },
      "inputs.x.probabilities.2: got 0.5",
    ],
    [{ distribution: "mixture", components: [] }, "inputs.x.components"],
    [
      { distribution: "mixture", components: [{ weight: 0, statement: normal }] },
      "inputs.x.components.0.weight: got 0",
    ],
    [
      { distribution: "mixture", components: [{ weight: 1, statement: { ...normal, standardUncertainty: -1 } }] },
      "inputs.x.components.0.statement.standardUncertainty: got -1",
    ],
    [
      { distribution: "mixture", components: [{ weight: 1, statement: { distribution: "bell" } }] },
      'inputs.x.components.0.statement.distribution: got "bell"',
    ],
    [
      {
        distribution: "mixture",
        components: [
          { weight: 1, statement: normal },
          { weight: 1, statement: constant },
        ],
      },
      'inputs.x.components.1.statement.distribution: got "constant"; expected a continuous',
    ],
    [
      {
        distribution: "mixture",
        components: [
          { weight: 1, statement: { distribution: "t", estimate: 0, standardUncertainty: 1, degreesOfFreedom: 2 } },
        ],
      },
      "more than 2 degrees of freedom",
    ],
    [nested(9), "at most 8 within one another"],
    [{ distribution: "rectangular", lower: 0, upper: 1, width: 1 }, "inputs.x.width: got 1; expected nothing"],
  ])("%j", (statement, words) => {
    expect(complaint(statement)).toContain(words);
  });

  test("mixtures eight deep are accepted", () => expect(complaint(nested(8))).toBe("accepted"));
});

function nested(depth: number): object {
  return depth === 0
    ? constant
    : { distribution: "mixture", components: [{ weight: 1, statement: nested(depth - 1) }] };
}

const read = (statement: Statement) => readStatement(statement, "x");

describe("the budget line", () => {
  test("limits of doubtful reliability keep their stated degrees of freedom (JCGM 100, G.4.2: 25 % doubtful is 8)", () => {
    expect(
      read({ distribution: "rectangular", estimate: 0, halfWidth: 1, degreesOfFreedom: 8 }).budget.degreesOfFreedom,
    ).toBe(8);
    expect(read({ distribution: "rectangular", estimate: 0, halfWidth: 1 }).budget.degreesOfFreedom).toBe(Infinity);
  });

  test("limits about an estimate off their middle: the estimate, and (b₊ + b₋)/√12 (JCGM 100, 4.3.8)", () => {
    const { budget, distribution } = read({
      distribution: "asymmetric-rectangular",
      lower: 9,
      estimate: 10,
      upper: 12,
    });
    expect(budget.estimate).toBe(10);
    expect(budget.standardUncertainty).toBeCloseTo(3 / Math.sqrt(12), 14);
    expect(distribution.mean).toBe(10.5);
  });

  test("expanded uncertainties: U/k, and k from the coverage probability (JCGM 100, 4.3.3, 4.3.4)", () => {
    expect(
      read({ distribution: "normal", estimate: 0, expandedUncertainty: 3, coverageFactor: 2 }).budget
        .standardUncertainty,
    ).toBe(1.5);
    // 4.3.4: U stated at 99 % with a normal distribution is divided by 2.58.
    expect(
      read({ distribution: "normal", estimate: 0, expandedUncertainty: 2.575829, coverageProbability: 0.99 }).budget
        .standardUncertainty,
    ).toBeCloseTo(1, 6);
    // Table G.2: t₉₅(5) = 2.570582.
    const t = {
      distribution: "t",
      estimate: 0,
      expandedUncertainty: 2.570582,
      coverageProbability: 0.95,
      degreesOfFreedom: 5,
    } as const;
    expect(read(t).budget.standardUncertainty).toBeCloseTo(1, 6);
  });

  test("data: their mean and s with n − 1 degrees of freedom; the distribution is theirs, with n", () => {
    const { budget, distribution } = read({ distribution: "sample", values: [1, 2, 3, 4, 5] });
    expect(budget).toEqual({
      estimate: 3,
      standardUncertainty: Math.sqrt(2) * Math.sqrt(5 / 4),
      degreesOfFreedom: 4,
      evaluation: "A",
    });
    expect(distribution.standardDeviation).toBeCloseTo(Math.SQRT2, 14);
  });

  test("a probability that misses 1 by rounding is normalised", () => {
    const { distribution } = read({
      distribution: "discrete",
      values: [0, 1, 2],
      probabilities: [0.333, 0.333, 0.333],
    });
    expect(distribution.density(1)).toBeCloseTo(1 / 3, 14);
    const { distribution: density } = read({
      distribution: "tabulated-density",
      values: [0, 1],
      densities: [1.009, 1.009],
    });
    expect(density.density(0.5)).toBeCloseTo(1, 14);
  });

  test("stated limits are kept exactly, and no draw or quantile exceeds them", () => {
    const { support } = read({ distribution: "rectangular", lower: 1e-5, upper: 1 }).distribution;
    expect(support).toEqual([1e-5, 1]);
  });

  test("a gap in a mixture belongs to neither side: the quantile is the least x with F(x) ≥ p", () => {
    const { distribution } = read({
      distribution: "mixture",
      components: [
        { weight: 1, statement: { distribution: "rectangular", lower: 0, upper: 1 } },
        { weight: 1, statement: { distribution: "rectangular", lower: 10, upper: 11 } },
      ],
    });
    expect(distribution.quantile(0.5)).toBe(1);
    expect(distribution.quantile(0.5 + 2 ** -40)).toBeGreaterThan(10);
    expect(distribution.mean).toBe(5.5);
    // Each component 1/12, and 5² between their middles.
    expect(distribution.standardDeviation).toBeCloseTo(Math.sqrt(1 / 12 + 25), 14);
  });
});
