import * as z from "zod";
import type { Immutable } from "../immutable.ts";
import { quantitySchema } from "../quantity.ts";
import { between, figure, matrix, names, pair, points } from "./parts.ts";

/** Trials counted in a square mesh of `cells` × `cells`; row by row, the first measurand running along a row. */
const gridSchema = z.strictObject({
  low: pair,
  width: pair,
  cells: z.int(),
  counts: z.array(figure),
  outside: figure,
  /** Cells with at least this count form the smallest region that contains a share p (JCGM 102, 7.7.4). */
  least: figure,
  area: figure,
  /** The actual share, since only whole cells count. */
  held: figure,
});

const pairSchema = z.strictObject({
  between,
  /** k_p of the pair's own coverage ellipse from the trials; `null` if the pair is exactly dependent. */
  ellipseFactor: figure.nullable(),
  grid: gridSchema,
  /** A few hundred trials, for a scatter plot. */
  scatter: points,
});

export const jointSchema = z.strictObject({
  measurands: names,
  /** From the linear budget: C·U_x·Cᵀ (JCGM 102, 6.2). */
  linear: z.strictObject({ covariance: matrix, correlation: matrix }),
  /** From the trials; `null` if the distribution has no covariance. */
  monteCarlo: z
    .strictObject({
      covariance: matrix,
      correlation: matrix,
      /** λ_max of the correlation matrix, which the adaptive procedure uses (JCGM 102, 7.8). */
      greatestEigenvalue: figure,
    })
    .nullable(),
  probability: figure,
  /** (η − y)ᵀ U_y⁻¹ (η − y) ≤ k_p² contains a share p. `null` if U_y is singular or does not exist. */
  ellipsoid: z
    .strictObject({
      /** k_p from the trials (JCGM 102, 7.7.2). */
      factor: figure,
      /** k_p of a multivariate normal: √χ²_m(p) (JCGM 102, 6.5.2). */
      normalFactor: figure,
    })
    .nullable(),
  /** y_j ± k_q·u(y_j) for all j at once contains a share p. */
  rectangle: z
    .strictObject({
      /** k_q from the trials (JCGM 102, 7.7.3). */
      factor: figure,
      /** k_q that suffices for any normal: Φ⁻¹((1 + q)/2), q = 1 − (1 − p)/m (JCGM 102, 6.5.3). */
      normalFactor: figure,
    })
    .nullable(),
  /** Every two measurands (the first ten pairs): a complex quantity is a pair of its real and imaginary parts. */
  pairs: z.array(pairSchema),
  /** Whether all measurands that have a tolerance conform at once; missing if fewer than two have one. */
  conformity: z
    .strictObject({
      measurands: names,
      /** Share of the trials in which all of them lie within their tolerances (JCGM 106:2012, 7.1, for several). */
      probability: figure,
      standardError: figure,
      /** Product of the single probabilities: what would hold if they did not depend on one another. */
      ifIndependent: figure,
      trials: z.int().positive(),
    })
    .exactOptional(),
});

const curvePointSchema = z.strictObject({
  at: figure,
  /** The curve's own linear budget at this argument (JCGM 100, 5.2.2 and H.3.4). */
  linear: z.strictObject({ estimate: figure, standardUncertainty: figure, coverageFactor: figure, interval: pair }),
  monteCarlo: z.strictObject({
    /** `null` if the distribution has no mean. */
    estimate: figure.nullable(),
    /** `null` if the distribution has no standard deviation. */
    standardUncertainty: figure.nullable(),
    /** Of the kind that the study states. */
    interval: pair,
  }),
});

export const calibrationCurveSchema = z.strictObject({
  argument: quantitySchema,
  value: quantitySchema,
  probability: figure,
  /** Number of trials, the run's first ones, from which the Monte Carlo figures are made. */
  trials: z.int().positive(),
  /** By rising argument. */
  points: z.array(curvePointSchema).min(2),
  /** The fitted points, with the curve's value there, at the estimates. Empty if the model declares none. */
  observed: z.array(z.strictObject({ at: figure, value: figure, fitted: figure })),
  /** How well the curve fits them; missing if the model does not say how many parameters it has. */
  fit: z
    .strictObject({
      /** Observed less fitted, in the unit of the value. */
      residuals: z.array(figure),
      /** Observed points less parameters. */
      degreesOfFreedom: z.int(),
      /** s = √(Σr²/ν), in the unit of the value; `null` without degrees of freedom. */
      residualDeviation: figure.nullable(),
      /** Largest |residual| as a difference of the argument: over the slope of the curve there. */
      largestInArgument: figure,
    })
    .exactOptional(),
});

/**
 * The joint figures of several measurands (JCGM 102). Rows and columns follow `measurands`. If there are more than two
 * million trials, regions and pairs come from the first two million.
 */
export type JointRecord = Immutable<z.output<typeof jointSchema>>;
/**
 * Two measurands together: the coverage ellipse of the pair (JCGM 102, 7.7.2), a mesh and some of the trials, x in the
 * unit of the first and y in that of the second.
 */
export type PairRecord = Immutable<z.output<typeof pairSchema>>;
/**
 * How often the trials of two measurands fell into each cell of a mesh: `counts` has cells² items, one row after the
 * other, the first measurand running along a row. `low` and `width` are in the units of the first and the second
 * measurand, `area` in their product. The smallest region that contains a share p is made of the cells with `least` or
 * more (JCGM 102, 7.7.4).
 */
export type PairGrid = Immutable<z.output<typeof gridSchema>>;
/** A calibration curve whose parameters are the measurands, with the coverage interval at each argument separately. */
export type CurveRecord = Immutable<z.output<typeof calibrationCurveSchema>>;
/**
 * The curve at one argument: the linear budget of its value and what the trials show there. `at` is in the unit of the
 * curve's argument, every other figure in that of its value.
 */
export type CurvePoint = Immutable<z.output<typeof curvePointSchema>>;
