import betaQuantile from "@stdlib/stats-base-dists-beta-quantile";
import { exp, ln } from "../elementary/index.ts";
import { refuse } from "../errors.ts";
import { GAMMA_CHANNELS, gammaSampler, logarithmicGammaSampler } from "../random/gamma.ts";
import { BLOCK_TRIALS } from "../random/block.ts";
import { defineDistribution, number, positive, statementOf, typeB, type Distribution } from "./distribution.ts";
import { lowerBeta } from "../numerics/incomplete-beta.ts";
import { monotoneInverse } from "../numerics/monotone-inverse.ts";
import { binomialProbability } from "../numerics/saddle-point.ts";
import { checkRising } from "./stated-limits.ts";
import { inUnit, ofOne } from "./field-unit.ts";

/** With shapes above this, the distribution is practically normal. */
const LARGEST_SHAPE = 1e6;

/**
 * Beta between limits: density proportional to (x − lower)^(a − 1)·(upper − x)^(b − 1).
 *
 * @param a shape at the lower limit: above 1 the density vanishes there, below 1 it is infinite
 * @param b shape at the upper limit
 */
export function betaDistribution(lower: number, upper: number, a: number, b: number): Distribution {
  const width = upper - lower;
  const n = a + b;
  const draw = betaSampler(a, b);
  return {
    mean: lower + (width * a) / n,
    standardDeviation: (width * Math.sqrt((a / n) * (b / n))) / Math.sqrt(n + 1),
    support: [lower, upper],
    density: (x) => (x < lower || x > upper ? 0 : betaDensity(a, b, (x - lower) / width, (upper - x) / width) / width),
    distributionFunction(x) {
      return x <= lower ? 0 : x >= upper ? 1 : lowerBeta(a, b, (x - lower) / width, (upper - x) / width);
    },
    quantile(p) {
      if (p === 0) return lower;
      if (p === 1) return upper;
      // From the nearer limit, so that no digits are lost at either end.
      return p <= lowerBeta(a, b, 0.5, 0.5)
        ? lower + width * nearQuantile(a, b, p, 1 - p)
        : upper - width * nearQuantile(b, a, 1 - p, p);
    },
    sample(from, out, count) {
      draw(from, out, count);
      for (let i = 0; i < count; i++) out[i] = Math.min(upper, lower + width * out[i]!);
    },
  };
}

/** Density on [0, 1]; y = 1 − x. */
function betaDensity(a: number, b: number, x: number, y: number): number {
  const n = a + b;
  if (x <= 0) return a < 1 ? Infinity : a === 1 ? b : 0;
  if (y <= 0) return b < 1 ? Infinity : b === 1 ? a : 0;
  if (a < 1 && b < 1) return (((a * b) / n) * binomialProbability(a, b, x, y)) / x / y;
  if (a < 1) return (a * binomialProbability(a, b - 1, x, y)) / x;
  if (b < 1) return (b * binomialProbability(a - 1, b, x, y)) / y;
  return (n - 1) * binomialProbability(a - 1, b - 1, x, y);
}

/**
 * The x on [0, ½] with probability p below and q above: Newton's method on the logarithm of the smaller, from the
 * library's inverse.
 */
function nearQuantile(a: number, b: number, p: number, q: number): number {
  const F = (x: number): number => lowerBeta(a, b, x, 1 - x);
  // Below this I_x equals its leading power, c·x^a.
  const tiny = 1e-20;
  const atTiny = F(tiny);
  if (p <= atTiny) return tiny * exp((ln(p) - ln(atTiny)) / a);
  const start = betaQuantile(p, a, b);
  const density = (x: number): number => betaDensity(a, b, x, 1 - x);
  if (p <= q)
    return monotoneInverse(
      (x) => ln(F(x)),
      (x) => density(x) / F(x),
      ln(p),
      tiny,
      0.5 + 1e-9,
      start,
    );
  const G = (x: number): number => lowerBeta(b, a, 1 - x, x);
  return monotoneInverse(
    (x) => -ln(G(x)),
    (x) => density(x) / G(x),
    -ln(q),
    tiny,
    0.5 + 1e-9,
    start,
  );
}

/**
 * X/(X + Y) of two gamma variates; from their logarithms if a shape is below 1, since both variates may then underflow.
 */
function betaSampler(a: number, b: number): Distribution["sample"] {
  const second = new Float64Array(BLOCK_TRIALS);
  const small = Math.min(a, b) < 1;
  const [first, other] = small
    ? [logarithmicGammaSampler(a), logarithmicGammaSampler(b)]
    : [gammaSampler(a), gammaSampler(b)];
  return (from, out, count) => {
    first(from, 0, out, count);
    other(from, GAMMA_CHANNELS, second, count);
    if (small) for (let i = 0; i < count; i++) out[i] = 1 / (1 + exp(second[i]! - out[i]!));
    else for (let i = 0; i < count; i++) out[i] = out[i]! / (out[i]! + second[i]!);
  };
}

/** A quantity between limits with any skewness: by two shapes, or by its estimate and standard uncertainty. */
export const beta = defineDistribution({
  kind: "beta",
  statement: statementOf("beta", {
    lower: number().optional().meta(inUnit("Lower limit; 0 if neither limit is given")),
    upper: number().optional().meta(inUnit("Upper limit; 1 if neither limit is given")),
    lowerShape: positive()
      .lte(LARGEST_SHAPE)
      .optional()
      .meta(ofOne("Shape at the lower limit: the density there is finite at 1, 0 above 1, infinite below 1")),
    upperShape: positive().lte(LARGEST_SHAPE).optional().meta(ofOne("Shape at the upper limit")),
    estimate: number().optional().meta(inUnit("Best estimate, between the limits; replaces the shapes")),
    standardUncertainty: positive().optional().meta(inUnit("Standard uncertainty, beside estimate")),
  }),
  read(stated, place) {
    const { lower = 0, upper = 1, estimate, standardUncertainty: u } = stated;
    if ((stated.lower === undefined) !== (stated.upper === undefined)) {
      refuse(
        `${place}.${stated.lower === undefined ? "lower" : "upper"}`,
        undefined,
        "a number: give both limits, or neither for 0 to 1",
      );
    }
    checkRising(lower, upper, place);
    const shapes = stated.lowerShape !== undefined || stated.upperShape !== undefined;
    const moments = estimate !== undefined || u !== undefined;
    if (shapes === moments) {
      refuse(
        place,
        shapes ? "shapes and estimate" : undefined,
        "either lowerShape and upperShape, or estimate and standardUncertainty",
      );
    }
    if (shapes) {
      if (stated.lowerShape === undefined)
        refuse(`${place}.lowerShape`, undefined, "a number greater than 0, beside upperShape");
      if (stated.upperShape === undefined)
        refuse(`${place}.upperShape`, undefined, "a number greater than 0, beside lowerShape");
      const distribution = betaDistribution(lower, upper, stated.lowerShape!, stated.upperShape!);
      return { distribution, budget: typeB(distribution.mean!, distribution.standardDeviation!) };
    }
    if (estimate === undefined)
      return refuse(`${place}.estimate`, undefined, "a number between the limits, beside standardUncertainty");
    if (u === undefined)
      return refuse(`${place}.standardUncertainty`, undefined, "a number greater than 0, beside estimate");
    if (!(estimate > lower && estimate < upper))
      refuse(`${place}.estimate`, estimate, `a number between lower (${lower}) and upper (${upper})`);
    const below = (estimate - lower) / (upper - lower);
    const above = (upper - estimate) / (upper - lower);
    const spread = u / (upper - lower);
    const n = (below * above) / (spread * spread) - 1;
    const most = Math.sqrt((estimate - lower) * (upper - estimate));
    if (!(n > 0)) {
      refuse(
        `${place}.standardUncertainty`,
        u,
        `a number less than √((estimate − lower)(upper − estimate)) = ${most}, the largest that these limits allow`,
      );
    }
    const [a, b] = [n * below, n * above];
    if (!(Math.max(a, b) <= LARGEST_SHAPE)) {
      refuse(
        `${place}.standardUncertainty`,
        u,
        "a number large enough for the limits to matter: if it is so small, state a normal distribution",
      );
    }
    return { distribution: betaDistribution(lower, upper, a, b), budget: typeB(estimate, u) };
  },
});
