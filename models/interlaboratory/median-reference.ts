import { defineModel, drawTrials, readStudy } from "../../engine/index.ts";
import { sampleStatistics, shortestInterval, sortedSample } from "../../engine/internal.ts";
import type { Equivalence } from "./degrees-of-equivalence.ts";
import { covarianceOf, type LaboratoryResult, type ResultCorrelation } from "./reference-value.ts";

/** Probability of the intervals of the differences. */
export const MEDIAN_PROBABILITY = 0.95;

/** A laboratory's difference from the median, with the shortest 95 % interval: its distribution is not normal. */
export interface MedianEquivalence extends Equivalence {
  readonly interval: readonly [low: number, high: number];
}

/** The median of the results as a reference value, with what the trials found. */
export interface MedianReference {
  /** Mean of the medians of the trials. */
  readonly value: number;
  /** Their standard deviation. */
  readonly standardUncertainty: number;
  readonly trials: number;
  readonly seed: string;
  readonly laboratories: readonly MedianEquivalence[];
}

/**
 * The median of the results that count, by propagation of their distributions (JCGM 101): procedure B of M. G. Cox,
 * Metrologia 39 (2002) 589–595. In each trial every result is drawn from its normal distribution and the median of those
 * that count is taken; value and uncertainty are mean and standard deviation of these medians, and a degree of
 * equivalence is the distribution of the result less the median of the same trial, so that its correlation with the
 * median is in it, for members and others alike. One result, however far off and however small its stated uncertainty,
 * hardly moves a median.
 *
 * @throws {InputError} a correlation of a laboratory that does not exist, correlations that cannot be
 */
export function medianReference(
  results: readonly LaboratoryResult[],
  correlations: readonly ResultCorrelation[],
  { trials, seed }: { readonly trials: number; readonly seed: string },
): MedianReference {
  // Refuses names that are not there, in the document's words.
  covarianceOf(results, correlations);
  const names = results.map((_, i) => `x${i + 1}`);
  const counting = names.filter((_, i) => results[i]!.inReference);
  const model = defineModel({
    id: "median-of-results",
    title: "Median of the results of several laboratories",
    source: "Cox, Metrologia 39 (2002) 589–595, procedure B",
    inputs: Object.fromEntries(
      names.map((name, i) => [name, { symbol: name, meaning: results[i]!.name, unit: "1" }] as const),
    ),
    measurands: { median: { symbol: "x_R", meaning: "median of the results", unit: "1" } },
    evaluate: (x: Readonly<Record<string, number>>) => medianOf(counting.map((name) => x[name]!)),
  });
  const study = readStudy({
    model: model.id,
    title: model.title,
    trials,
    seed,
    inputs: Object.fromEntries(
      names.map((name, i) => {
        const { value: estimate, standardUncertainty } = results[i]!;
        return [name, { distribution: "normal", estimate, standardUncertainty }];
      }),
    ),
    correlations: correlations.map(({ between, coefficient }) => ({
      between: between.map((name) => names[results.findIndex((result) => result.name === name)]!),
      coefficient,
    })),
  });
  const medians = new Float64Array(trials);
  const differences = names.map(() => new Float64Array(trials));
  for (const { first, count, inputs, measurands } of drawTrials(model, study)) {
    const median = measurands.median;
    medians.set(median, first);
    names.forEach((name, lab) => {
      const x = inputs[name]!;
      for (let i = 0; i < count; i++) differences[lab]![first + i] = x[i]! - median[i]!;
    });
  }
  const whole = sampleStatistics(medians);
  return {
    value: whole.mean,
    standardUncertainty: whole.standardDeviation,
    trials,
    seed,
    laboratories: differences.map((values, i): MedianEquivalence => ({
      difference: results[i]!.value - whole.mean,
      standardUncertainty: sampleStatistics(values).standardDeviation,
      interval: shortestInterval(sortedSample(values.sort()), MEDIAN_PROBABILITY),
    })),
  };
}

function medianOf(values: number[]): number {
  values.sort((a, b) => a - b);
  const half = values.length >> 1;
  return values.length % 2 === 1 ? values[half]! : values[half - 1]! / 2 + values[half]! / 2;
}
