import { refuse } from "../../engine/index.ts";
import type { LaboratoryResult, ReferenceValue } from "./reference-value.ts";

/** A reference value where laboratories scatter beyond their uncertainties: each has an effect of its own, of variance τ². */
export interface RandomEffects extends ReferenceValue {
  /** Standard deviation between the laboratories. */
  readonly between: number;
}

/** How τ² is found. All stop at 0: laboratories that scatter less than expected leave the weighted mean as it is. */
export type RandomEffectsMethod = "mandelPaule" | "derSimonianLaird" | "cochran" | "twoStep";

/**
 * The reference value with an effect of each laboratory, for results that are not consistent: R. N. Kacker, Metrologia 41
 * (2004) 132–136. It is robust in that no laboratory, however small its stated uncertainty, can outweigh the scatter.
 *
 * - `mandelPaule`: τ² for which Σ (x − μ)²/(u² + τ²) is n − 1;
 * - `derSimonianLaird`, `cochran`: by the moments with weights 1/u², or equal ones;
 * - `twoStep`: by the moments with the weights that `cochran` gives.
 *
 * Results are taken as not correlated.
 *
 * @throws {InputError} fewer than two results that count
 */
export function randomEffects(results: readonly LaboratoryResult[], method: RandomEffectsMethod): RandomEffects {
  const members = results.filter(({ inReference }) => inReference);
  if (members.length < 2)
    refuse("laboratories", `${members.length} that count`, "two or more that count in the reference value");
  const shift = members[0]!.value;
  const x = members.map(({ value }) => value - shift);
  const v = members.map(({ standardUncertainty: u }) => u * u);
  const between2 = betweenVariance(x, v, method);
  const w = v.map((variance) => 1 / (variance + between2));
  const sum = w.reduce((total, weight) => total + weight, 0);
  const weights = results.map(({ inReference, standardUncertainty: u }) =>
    inReference ? 1 / (u * u + between2) / sum : 0,
  );
  return {
    value: shift + meanOf(x, w),
    standardUncertainty: 1 / Math.sqrt(sum),
    weights,
    between: Math.sqrt(between2),
  };
}

const meanOf = (x: readonly number[], w: readonly number[]): number =>
  x.reduce((sum, value, i) => sum + w[i]! * value, 0) / w.reduce((sum, weight) => sum + weight, 0);

function betweenVariance(x: readonly number[], v: readonly number[], method: RandomEffectsMethod): number {
  const inverse = v.map((variance) => 1 / variance);
  switch (method) {
    case "derSimonianLaird":
      return byMoments(x, v, inverse);
    case "cochran":
      return byMoments(
        x,
        v,
        v.map(() => 1),
      );
    case "twoStep": {
      const first = betweenVariance(x, v, "cochran");
      return byMoments(
        x,
        v,
        v.map((variance) => 1 / (variance + first)),
      );
    }
    case "mandelPaule":
      return mandelPaule(x, v);
  }
}

/** τ² for which Σ w(x − μ)² has its expectation, for weights that do not depend on it. */
function byMoments(x: readonly number[], v: readonly number[], w: readonly number[]): number {
  const mean = meanOf(x, w);
  const Q = x.reduce((sum, value, i) => sum + w[i]! * (value - mean) * (value - mean), 0);
  const first = w.reduce((sum, weight) => sum + weight, 0);
  const second = w.reduce((sum, weight) => sum + weight * weight, 0);
  const within = w.reduce((sum, weight, i) => sum + weight * v[i]!, 0);
  const squares = w.reduce((sum, weight, i) => sum + weight * weight * v[i]!, 0);
  return Math.max(0, (Q - (within - squares / first)) / (first - second / first));
}

/** Enough for any start: Newton's steps from below never overshoot, since Q falls and is convex. */
const MOST_STEPS = 200;

function mandelPaule(x: readonly number[], v: readonly number[]): number {
  const wanted = x.length - 1;
  let between2 = 0;
  for (let step = 0; step < MOST_STEPS; step++) {
    const w = v.map((variance) => 1 / (variance + between2));
    const mean = meanOf(x, w);
    const excess = x.reduce((sum, value, i) => sum + w[i]! * (value - mean) * (value - mean), 0) - wanted;
    if (excess <= 0) return between2;
    const slope = x.reduce((sum, value, i) => sum + w[i]! * w[i]! * (value - mean) * (value - mean), 0);
    const next = between2 + excess / slope;
    if (next === between2) return between2;
    between2 = next;
  }
  return between2;
}
