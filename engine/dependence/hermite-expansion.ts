import { normalDensity, normalDistributionFunction } from "../numerics/standard-normal.ts";
import type { Distribution } from "../distributions/distribution.ts";

/** Terms kept: the k-th counts with ρ^k. What the rest adds is known exactly at ρ = ±1 and stands in for it. */
const TERMS = 60;
/** Integration over ±9 standard deviations of the normal, where all but 2e-19 of it lies. */
const REACH = 9;
const STEPS = 4000;

/** A quantity X = F⁻¹(Φ(Z)) in terms of the standard normal Z behind it. */
export interface Expansion {
  /** Its coefficients a_1 … a_60 in normalised Hermite polynomials of Z. */
  readonly coefficients: Float64Array;
  /** X − E X at the nodes of the integration. */
  readonly deviations: Float64Array;
}

const NODES = Float64Array.from({ length: STEPS - 1 }, (_, i) => -REACH + ((i + 1) * 2 * REACH) / STEPS);
// A quantile is smooth in z for the distributions met, and the normal weight vanishes at both ends, so the trapezoidal
// rule converges faster than any power of the step.
const WEIGHTS = NODES.map((z) => ((2 * REACH) / STEPS) * normalDensity(z));

/** What depends on the nodes alone, made with the first expansion. */
interface AtNodes {
  /** Φ(z). */
  readonly probabilities: Float64Array;
  /** Normalised Hermite polynomials h_1 … h_60 of z, one array for each. */
  readonly polynomials: readonly Float64Array[];
}

let made: AtNodes | undefined;

function atNodes(): AtNodes {
  if (made !== undefined) return made;
  const probabilities = NODES.map((z) => withinUnit(normalDistributionFunction(z)));
  const polynomials = [Float64Array.from(NODES)];
  // h_k = H_k/√(k!), by √(k + 1)·h_{k+1} = z·h_k − √k·h_{k−1}.
  for (let k = 1; k < TERMS; k++) {
    const [below, above] = [Math.sqrt(k), Math.sqrt(k + 1)];
    const [previous, current] = [polynomials[k - 2], polynomials[k - 1]!];
    polynomials.push(NODES.map((z, i) => (z * current[i]! - below * (previous?.[i] ?? 1)) / above));
  }
  return (made = { probabilities, polynomials });
}

/**
 * Expands a quantity so that, for two of them over a bivariate normal with correlation ρ,
 * cov(X, Y) = Σ_k a_k·b_k·ρ^k (Mehler's formula).
 */
export function hermiteExpansion({ quantile, mean }: Distribution): Expansion {
  const { probabilities, polynomials } = atNodes();
  const deviations = probabilities.map((p) => quantile(p) - mean!);
  const weighted = deviations.map((deviation, i) => WEIGHTS[i]! * deviation);
  const coefficients = Float64Array.from(polynomials, (polynomial) => {
    let sum = 0;
    for (let i = 0; i < weighted.length; i++) sum += weighted[i]! * polynomial[i]!;
    return sum;
  });
  return { coefficients, deviations };
}

/** A probability that a quantile of an unbounded distribution can take. */
export const withinUnit = (p: number): number => Math.min(Math.max(p, 1e-300), 1 - 2 ** -53);

/** The covariance of two quantities as a function of the correlation ρ of the normals behind them. */
export function covarianceOf(a: Expansion, b: Expansion): (ρ: number) => number {
  const products = a.coefficients.map((coefficient, k) => coefficient * b.coefficients[k]!);
  const series = (ρ: number): number => {
    let sum = 0;
    for (let k = TERMS - 1; k >= 0; k--) sum = (sum + products[k]!) * ρ;
    return sum;
  };
  let together = 0;
  let opposed = 0;
  const last = NODES.length - 1;
  for (let i = 0; i <= last; i++) {
    together += WEIGHTS[i]! * a.deviations[i]! * b.deviations[i]!;
    opposed += WEIGHTS[i]! * a.deviations[i]! * b.deviations[last - i]!;
  }
  const restTogether = together - series(1);
  const restOpposed = opposed - series(-1);
  const odd = (restTogether - restOpposed) / 2;
  const even = (restTogether + restOpposed) / 2;
  return (ρ) => {
    let power = ρ;
    for (let k = 1; k <= TERMS; k++) power *= ρ; // ρ^61
    return series(ρ) + odd * power + even * power * ρ;
  };
}
