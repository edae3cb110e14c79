/** A mean difference as it goes into a swap. */
export interface MeanDifference {
  readonly mean: number;
  readonly standardUncertainty: number;
  readonly degreesOfFreedom: number;
}

/** What two placements of one pair give: the bath's part and the pair's. */
export interface SwapDifference {
  /** Temperature at the first position minus that at the second. */
  readonly difference: number;
  /** Thermometer P minus thermometer Q at one temperature. */
  readonly offset: number;
  /** Of either; the two have the same. */
  readonly standardUncertainty: number;
  readonly degreesOfFreedom: number;
}

/**
 * Difference between two positions from swapping a pair P, Q: the pair's own offset changes sign and cancels.
 *
 * With d₁₂ = P at 1 − Q at 2 and d₂₁ = P at 2 − Q at 1: difference = (d₁₂ − d₂₁)/2, offset = (d₁₂ + d₂₁)/2,
 * u = ½·√(u₁₂² + u₂₁²), degrees of freedom by Welch–Satterthwaite (JCGM 100, G.4.1).
 */
export function swapDifference(d12: MeanDifference, d21: MeanDifference): SwapDifference {
  return { difference: (d12.mean - d21.mean) / 2, offset: (d12.mean + d21.mean) / 2, ...combined(d12, d21, 0.5) };
}

/**
 * Difference between two positions from moving P while Q stays at the second: the pair's offset, known from a placement
 * with both at the second, is subtracted.
 *
 * @param moved P at 1 − Q at 2
 * @param baseline P at 2 − Q at 2
 */
export function movedDifference(moved: MeanDifference, baseline: MeanDifference): SwapDifference {
  return { difference: moved.mean - baseline.mean, offset: baseline.mean, ...combined(moved, baseline, 1) };
}

function combined(a: MeanDifference, b: MeanDifference, factor: number) {
  const ua = factor * a.standardUncertainty;
  const ub = factor * b.standardUncertainty;
  const variance = ua * ua + ub * ub;
  const denominator = (ua * ua * ua * ua) / a.degreesOfFreedom + (ub * ub * ub * ub) / b.degreesOfFreedom;
  return {
    standardUncertainty: Math.sqrt(variance),
    degreesOfFreedom: denominator === 0 ? a.degreesOfFreedom + b.degreesOfFreedom : (variance * variance) / denominator,
  };
}
