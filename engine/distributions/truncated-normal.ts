import { exp } from "../elementary/index.ts";
import { refuse } from "../errors.ts";
import { truncatedNormalSampler } from "../random/truncated-normal.ts";
import { defineDistribution, number, statementOf, typeB, type Distribution } from "./distribution.ts";
import { gaussLegendre } from "../numerics/gauss-legendre.ts";
import { monotoneInverse } from "../numerics/monotone-inverse.ts";
import { normalDensity, normalProbability, normalQuantile, normalStrip } from "../numerics/standard-normal.ts";
import { checkRising } from "./stated-limits.ts";
import { readUncertainty, uncertaintyFields } from "./stated-uncertainty.ts";
import { inUnit } from "./field-unit.ts";

/** In standard deviations: between limits further out than this, the probability is below every double. */
const FURTHEST = 37;

/**
 * N(centre, deviation²) given that it lies between the limits, either of which may be infinite.
 * The limits must enclose some probability: one of them lies within 37 deviations of the centre, or the centre lies
 * between them.
 */
export function truncatedNormalDistribution(
  centre: number,
  deviation: number,
  lower: number,
  upper: number,
): Distribution {
  const a = (lower - centre) / deviation;
  const b = (upper - centre) / deviation;
  const enclosed = normalProbability(a, b);
  const { mean, standardDeviation } = momentsBetween(a, b);

  const draw = truncatedNormalSampler(a, b, enclosed);
  const clamp = (x: number): number => Math.max(lower, Math.min(upper, x));
  const quantile = (p: number): number => {
    if (p === 0) return lower;
    if (p === 1) return upper;
    // From the nearer limit, so that no digits are lost near it.
    if (p <= 0.5) {
      const q = p * enclosed;
      return clamp(
        a === -Infinity ? centre + deviation * normalQuantile(q) : lower + deviation * stripWidth(a, q, b - a),
      );
    }
    const q = (1 - p) * enclosed;
    return clamp(
      b === Infinity ? centre - deviation * normalQuantile(q) : upper - deviation * stripWidth(-b, q, b - a),
    );
  };
  const lowerTail = (x: number): number => {
    if (x <= lower) return 0;
    if (x >= upper) return 1;
    return (
      (a === -Infinity ? normalProbability(a, (x - centre) / deviation) : normalStrip(a, (x - lower) / deviation)) /
      enclosed
    );
  };
  const upperTail = (x: number): number => {
    if (x <= lower) return 1;
    if (x >= upper) return 0;
    return (
      (b === Infinity ? normalProbability((x - centre) / deviation, b) : normalStrip(-b, (upper - x) / deviation)) /
      enclosed
    );
  };
  return {
    mean: centre + deviation * mean,
    standardDeviation: deviation * standardDeviation,
    support: [lower, upper],
    density: (x) => (x < lower || x > upper ? 0 : normalDensity((x - centre) / deviation) / enclosed / deviation),
    distributionFunction(x) {
      const below = lowerTail(x);
      return below < 0.5 ? below : 1 - upperTail(x);
    },
    upperTail(x) {
      const above = upperTail(x);
      return above < 0.5 ? above : 1 - lowerTail(x);
    },
    quantile,
    sample(from, out, count) {
      draw(from, out, count);
      for (let i = 0; i < count; i++) out[i] = clamp(centre + deviation * out[i]!);
    },
  };
}

/** The width w ≤ most with P(a < Z ≤ a + w) = q, for finite a. */
function stripWidth(a: number, q: number, most: number): number {
  const narrow = q / normalDensity(a);
  const start =
    narrow < 0.1
      ? narrow
      : a < 0
        ? normalQuantile(normalProbability(-Infinity, a) + q) - a
        : -normalQuantile(normalProbability(a, Infinity) - q) - a;
  return monotoneInverse(
    (w) => normalStrip(a, w),
    (w) => normalDensity(a + w),
    q,
    0,
    Math.min(most, 2 * FURTHEST),
    start,
  );
}

/**
 * Mean and standard deviation of the standard normal given a < Z < b, by quadrature about the mode: the closed forms
 * suffer from cancellation if the limits are close together or far out.
 */
function momentsBetween(a: number, b: number): { mean: number; standardDeviation: number } {
  const peak = Math.max(a, Math.min(b, 0));
  // Beyond this the density is below e⁻⁵⁰ of its peak and contributes nothing.
  const reach = Math.sqrt(peak * peak + 100);
  const low = Math.max(a, -reach);
  const high = Math.min(b, reach);
  const relative = (z: number): number => exp(((peak - z) * (peak + z)) / 2);
  const PIECES = 16;
  const integral = (f: (z: number) => number): number => {
    const width = (high - low) / PIECES;
    let sum = 0;
    for (let i = 0; i < PIECES; i++) sum += gaussLegendre(f, low + i * width, width);
    return sum;
  };
  const mass = integral(relative);
  const shift = integral((z) => (z - peak) * relative(z)) / mass;
  const mean = peak + shift;
  const variance = integral((z) => (z - mean) * (z - mean) * relative(z)) / mass;
  return { mean, standardDeviation: Math.sqrt(variance) };
}

/** A normal distribution with physical limits: an estimate, its uncertainty, and a limit that no value can exceed. */
export const truncatedNormal = defineDistribution({
  kind: "truncated-normal",
  statement: statementOf("truncated-normal", {
    estimate: number().meta(inUnit("Best estimate before the limits are taken into account")),
    ...uncertaintyFields,
    lower: number().optional().meta(inUnit("Smallest possible value")),
    upper: number().optional().meta(inUnit("Largest possible value")),
  }),
  read(stated, place) {
    const { estimate, lower = -Infinity, upper = Infinity } = stated;
    const u = readUncertainty(stated, place);
    if (stated.lower === undefined && stated.upper === undefined) {
      refuse(`${place}.lower`, undefined, "a number: give lower or upper or both, or state a normal distribution");
    }
    checkRising(lower, upper, place);
    if ((lower - estimate) / u > FURTHEST || (estimate - upper) / u > FURTHEST) {
      const field = lower > estimate ? "lower" : "upper";
      refuse(
        `${place}.${field}`,
        stated[field],
        `limits within ${FURTHEST} standard uncertainties of the estimate (${estimate}), or that enclose it`,
      );
    }
    const distribution = truncatedNormalDistribution(estimate, u, lower, upper);
    return { distribution, budget: typeB(distribution.mean!, distribution.standardDeviation!) };
  },
});
