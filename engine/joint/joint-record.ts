import type { Quantity } from "../model.ts";

/**
 * The joint figures of several measurands (JCGM 102). Rows and columns follow `measurands`. If there are more than two
 * million trials, regions and pairs come from the first two million.
 */
export interface JointRecord {
  readonly measurands: readonly string[];
  /** From the linear budget: C·U_x·Cᵀ (JCGM 102, 6.2). */
  readonly linear: {
    readonly covariance: readonly (readonly number[])[];
    readonly correlation: readonly (readonly number[])[];
  };
  /** From the trials; `null` where the distribution has no covariance. */
  readonly monteCarlo: {
    readonly covariance: readonly (readonly number[])[];
    readonly correlation: readonly (readonly number[])[];
    /** λ_max of the correlation matrix, which the adaptive procedure uses (JCGM 102, 7.8). */
    readonly greatestEigenvalue: number;
  } | null;
  readonly probability: number;
  /**
   * (η − y)ᵀ U_y⁻¹ (η − y) ≤ k_p² contains a share p. `null` if U_y is singular or does not exist.
   */
  readonly ellipsoid: {
    /** k_p from the trials (JCGM 102, 7.7.2). */
    readonly factor: number;
    /** k_p of a multivariate normal: √χ²_m(p) (JCGM 102, 6.5.2). */
    readonly normalFactor: number;
  } | null;
  /** y_j ± k_q·u(y_j) for all j at once contains a share p. */
  readonly rectangle: {
    /** k_q from the trials (JCGM 102, 7.7.3). */
    readonly factor: number;
    /** k_q that suffices for any normal: Φ⁻¹((1 + q)/2), q = 1 − (1 − p)/m (JCGM 102, 6.5.3). */
    readonly normalFactor: number;
  } | null;
  /** Every two measurands (the first ten pairs): a complex quantity is a pair of its real and imaginary parts. */
  readonly pairs: readonly PairRecord[];
}

export interface PairRecord {
  readonly between: readonly [string, string];
  /** k_p of the pair's own coverage ellipse from the trials; `null` where the pair is exactly dependent. */
  readonly ellipseFactor: number | null;
  readonly grid: PairGrid;
  /** A few hundred trials, for a scatter plot. */
  readonly scatter: readonly (readonly [number, number])[];
}

/** Trials counted in a square mesh of `cells` × `cells`; row by row, the first measurand running along a row. */
export interface PairGrid {
  readonly low: readonly [number, number];
  readonly width: readonly [number, number];
  readonly cells: number;
  readonly counts: readonly number[];
  readonly outside: number;
  /** Cells with at least this count form the smallest region that contains a share p (JCGM 102, 7.7.4). */
  readonly least: number;
  readonly area: number;
  /** The actual share, since only whole cells count. */
  readonly held: number;
}

/** A calibration curve whose parameters are the measurands, with the coverage interval at each argument separately. */
export interface CurveRecord {
  readonly argument: Quantity;
  readonly value: Quantity;
  readonly probability: number;
  /** Number of trials, the run's first ones, from which the Monte Carlo figures are made. */
  readonly trials: number;
  /** By rising argument. */
  readonly points: readonly CurvePoint[];
  /** The fitted points, with the curve's value there, at the estimates. Empty if the model declares none. */
  readonly observed: readonly { readonly at: number; readonly value: number; readonly fitted: number }[];
  /** How well the curve fits them; missing where the model does not say how many parameters it has. */
  readonly fit?: {
    /** Observed less fitted, in the unit of the value. */
    readonly residuals: readonly number[];
    /** Observed points less parameters. */
    readonly degreesOfFreedom: number;
    /** s = √(Σr²/ν), in the unit of the value; `null` without degrees of freedom. */
    readonly residualDeviation: number | null;
    /** Largest |residual| as a difference of the argument: over the slope of the curve there. */
    readonly largestInArgument: number;
  };
}

export interface CurvePoint {
  readonly at: number;
  /** The curve's own linear budget at this argument (JCGM 100, 5.2.2 and H.3.4). */
  readonly linear: {
    readonly estimate: number;
    readonly standardUncertainty: number;
    readonly coverageFactor: number;
    readonly interval: readonly [number, number];
  };
  readonly monteCarlo: {
    /** `null` where the distribution has no mean. */
    readonly estimate: number | null;
    /** `null` where the distribution has no standard deviation. */
    readonly standardUncertainty: number | null;
    /** Of the kind that the study states. */
    readonly interval: readonly [number, number];
  };
}
