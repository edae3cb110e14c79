import * as z from "zod";
import type { Immutable } from "../immutable.ts";
import { figure, pair, points } from "./parts.ts";

/** The four figures that the adaptive procedure watches (JCGM 101, 7.9.4); `null` if the distribution has none. */
const watchedSchema = z.strictObject({
  estimate: figure.nullable(),
  standardUncertainty: figure.nullable(),
  low: figure.nullable(),
  high: figure.nullable(),
});

const settlingPointSchema = z.strictObject({
  trials: z.int(),
  /** Average of each figure over the batches so far. */
  averages: watchedSchema,
  /** Twice the standard deviation of that average: 2·s_z. */
  doubled: watchedSchema,
});

/** A histogram, as a record has it and as it is made at a reader's wish. */
export const histogramSchema = z.strictObject({
  /** Lower edge of the first bin. */
  low: figure,
  width: figure,
  counts: z.array(z.int()),
  /** Trials below the first and above the last bin. */
  below: z.int(),
  above: z.int(),
});

export const monteCarloSchema = z.strictObject({
  /** `null` if the distribution has no mean. */
  estimate: figure.nullable(),
  /** `null` if the distribution has no standard deviation. */
  standardUncertainty: figure.nullable(),
  trials: z.int().positive(),
  probability: figure,
  intervals: z.strictObject({ symmetric: pair, shortest: pair }),
  skewness: figure.nullable(),
  /** 0 for a normal distribution. */
  excessKurtosis: figure.nullable(),
  least: figure,
  greatest: figure,
  standardErrors: z.strictObject({
    estimate: figure.nullable(),
    standardUncertainty: figure.nullable(),
    symmetric: pair,
    /** `null` if there were too few batches to tell. */
    shortest: pair.nullable(),
  }),
  histogram: histogramSchema,
  /**
   * Most that an endpoint of the symmetric interval may be off because trials were counted in bins, not kept: only if
   * there are more than two million.
   */
  resolution: figure.exactOptional(),
  /**
   * The power with which the heavier tail falls off, if it is below 2: then the trials show no standard deviation that
   * settles, and at or below 1 no mean, whatever figures stand here.
   */
  tailIndex: figure.exactOptional(),
  /** Points of the distribution function: probability and the value there, to a few thousandths of the standard uncertainty. */
  distributionFunction: points,
  settling: z.strictObject({
    points: z.array(settlingPointSchema),
    /** 2·s_z must be at most this: δ/5. */
    limit: figure,
    settled: z.boolean(),
    /** 2·s_z of each figure at the end. */
    doubled: watchedSchema,
  }),
});

/** How the figures stood when this many trials had been made. */
export type SettlingPoint = Immutable<z.output<typeof settlingPointSchema>>;
/** A figure that the adaptive procedure watches. */
export type Figure = keyof SettlingPoint["averages"];
/**
 * The trials counted in bins of equal width: bin i, from 0, reaches from `low` + i·`width`, in the measurand's unit.
 * All counts with `below` and `above` add up to the number of trials.
 */
export type Histogram = Immutable<z.output<typeof histogramSchema>>;
/** The Monte Carlo result (JCGM 101). */
export type MonteCarloRecord = Immutable<z.output<typeof monteCarloSchema>>;
