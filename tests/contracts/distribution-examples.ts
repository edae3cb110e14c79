import type { Statement } from "../../engine/index.ts";

/** A statement for the contract suite, and the moments of it that do not exist. */
export interface Example {
  readonly statement: Statement;
  /** No fourth moment: the spread of a sample's standard deviation cannot be predicted. */
  readonly heavyTails?: true;
}

const values = (count: number, f: (i: number) => number): number[] => Array.from({ length: count }, (_, i) => f(i));

/**
 * At least one statement for every registered kind, including difficult ones: far from 0, narrow, skew, infinite at a
 * limit, truncated in the far tail.
 */
export const examples: readonly Example[] = [
  { statement: { distribution: "normal", estimate: 20.1, standardUncertainty: 0.03 } },
  { statement: { distribution: "normal", estimate: -5e7, expandedUncertainty: 4, coverageFactor: 2 } },
  { statement: { distribution: "rectangular", estimate: 0, halfWidth: 0.05 } },
  { statement: { distribution: "rectangular", lower: 1e6, upper: 1e6 + 1e-6 } },
  { statement: { distribution: "triangular", lower: -1, upper: 3 } },
  { statement: { distribution: "trapezoidal", estimate: 180, halfWidth: 0.5, topRatio: 0.33 } },
  { statement: { distribution: "trapezoidal", estimate: 0, halfWidth: 2, topRatio: 0.999 } },
  { statement: { distribution: "trapezoidal", estimate: 0, halfWidth: 2, topRatio: 0 } },
  { statement: { distribution: "curvilinear-trapezoid", lower: -1, upper: 1, limitHalfWidth: 0.5 } },
  { statement: { distribution: "curvilinear-trapezoid", estimate: 72, halfWidth: 0.05, limitHalfWidth: 0.001 } },
  { statement: { distribution: "arcsine", estimate: 72, halfWidth: 0.02 } },
  { statement: { distribution: "t", estimate: 4, standardUncertainty: 0.01, degreesOfFreedom: 16.7 } },
  {
    statement: {
      distribution: "t",
      estimate: 4,
      expandedUncertainty: 0.02,
      coverageProbability: 0.95,
      degreesOfFreedom: 5,
    },
  },
  { statement: { distribution: "t", estimate: 0, standardUncertainty: 1, degreesOfFreedom: 3 }, heavyTails: true },
  { statement: { distribution: "t", estimate: 0, standardUncertainty: 1, degreesOfFreedom: 1 }, heavyTails: true },
  { statement: { distribution: "t", estimate: 0, standardUncertainty: 1, degreesOfFreedom: 0.5 }, heavyTails: true },
  { statement: { distribution: "readings", values: [0.12, 0.14, 0.11, 0.15, 0.13, 0.12, 0.16] } },
  {
    statement: {
      distribution: "readings",
      values: [100.02],
      pooledStandardDeviation: 0.01,
      pooledDegreesOfFreedom: 24,
    },
  },
  { statement: { distribution: "exponential", estimate: 0.002 } },
  { statement: { distribution: "exponential", estimate: 12, lower: 10 } },
  { statement: { distribution: "gamma", count: 0 } },
  { statement: { distribution: "gamma", count: 7, scale: 0.5 } },
  { statement: { distribution: "gamma", count: 40_000 } },
  { statement: { distribution: "gamma", shape: 0.4, scale: 3 } },
  { statement: { distribution: "beta", lowerShape: 2, upperShape: 6 } },
  { statement: { distribution: "beta", lowerShape: 0.7, upperShape: 0.6 } },
  { statement: { distribution: "beta", lower: 90, upper: 100, estimate: 98, standardUncertainty: 0.8 } },
  { statement: { distribution: "log-normal", logarithmMean: 0, logarithmStandardDeviation: 0.25 } },
  { statement: { distribution: "log-normal", estimate: 1e-6, standardUncertainty: 4e-7 } },
  { statement: { distribution: "truncated-normal", estimate: 0.2, standardUncertainty: 0.5, lower: 0 } },
  { statement: { distribution: "truncated-normal", estimate: 0, standardUncertainty: 1, lower: 8, upper: 9 } },
  { statement: { distribution: "truncated-normal", estimate: 0, standardUncertainty: 1, upper: -6 } },
  { statement: { distribution: "truncated-normal", estimate: 0, standardUncertainty: 1, lower: 20, upper: 20.05 } },
  { statement: { distribution: "truncated-normal", estimate: 0, standardUncertainty: 1, lower: -0.1, upper: 0.4 } },
  { statement: { distribution: "truncated-normal", estimate: 0, standardUncertainty: 1, lower: 0.7 } },
  { statement: { distribution: "truncated-normal", estimate: 10, standardUncertainty: 1, lower: 8, upper: 14 } },
  { statement: { distribution: "asymmetric-triangular", lower: 0, mode: 0.2, upper: 2 } },
  { statement: { distribution: "asymmetric-triangular", lower: 0, mode: 0, upper: 2 } },
  { statement: { distribution: "asymmetric-triangular", lower: -3, mode: -1, upper: -1 } },
  { statement: { distribution: "asymmetric-rectangular", lower: 0, estimate: 0.1, upper: 1 } },
  { statement: { distribution: "poisson", estimate: 0.3 } },
  { statement: { distribution: "poisson", estimate: 6.5 } },
  { statement: { distribution: "poisson", estimate: 12_345.6 } },
  { statement: { distribution: "discrete", values: [4, -1, 2, 2], probabilities: [0.25, 0.5, 0.125, 0.125] } },
  { statement: { distribution: "sample", values: values(60, (i) => ((i * 37) % 60) / 7 + ((i * i) % 11)) } },
  { statement: { distribution: "tabulated-density", values: [0, 1, 2, 4, 5], densities: [0, 0.25, 0.375, 0.125, 0] } },
  { statement: { distribution: "tabulated-density", values: [-2, -1, 1, 2], densities: [1, 0, 0, 1] } },
  {
    statement: {
      distribution: "tabulated-distribution",
      values: [-2, -1, 0, 1, 3],
      probabilities: [0, 0.1, 0.5, 0.5, 1],
    },
  },
  {
    statement: {
      distribution: "mixture",
      components: [
        { weight: 9, statement: { distribution: "normal", estimate: 0, standardUncertainty: 0.01 } },
        { weight: 1, statement: { distribution: "rectangular", lower: 0, upper: 0.2 } },
      ],
    },
  },
  {
    statement: {
      distribution: "mixture",
      components: [
        { weight: 1, statement: { distribution: "rectangular", lower: 0, upper: 1 } },
        {
          weight: 1,
          statement: {
            distribution: "mixture",
            components: [
              { weight: 1, statement: { distribution: "rectangular", lower: 10, upper: 11 } },
              {
                weight: 2,
                statement: { distribution: "t", estimate: 12, standardUncertainty: 0.1, degreesOfFreedom: 9 },
              },
            ],
          },
        },
      ],
    },
  },
  {
    statement: {
      distribution: "mixture",
      components: [
        { weight: 1, statement: { distribution: "poisson", estimate: 2 } },
        { weight: 1, statement: { distribution: "discrete", values: [1, 20], probabilities: [0.5, 0.5] } },
      ],
    },
  },
  { statement: { distribution: "constant", value: 0.2 } },
];
