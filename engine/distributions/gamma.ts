import * as z from "zod";
import { exp, ln } from "../elementary/index.ts";
import { refuse } from "../errors.ts";
import { gammaSampler } from "../random/gamma.ts";
import { defineDistribution, positive, statementOf, typeB, type Distribution } from "./distribution.ts";
import { lowerGamma, upperGamma } from "../numerics/incomplete-gamma.ts";
import { poissonProbability } from "../numerics/saddle-point.ts";
import { monotoneInverse } from "../numerics/monotone-inverse.ts";
import { normalQuantile } from "../numerics/standard-normal.ts";
import { counted, inUnit, ofOne } from "./field-unit.ts";

/** Above this shape a gamma quantity is normal to within 1e-4 standard deviations, and its functions are slow. */
export const LARGEST_SHAPE = 1e8;

/** G(shape, scale) with density proportional to x^(shape − 1)·e^(−x/scale): JCGM 101, 6.4.11. */
export function gammaDistribution(shape: number, scale: number): Distribution {
  const draw = gammaSampler(shape);
  return {
    mean: shape * scale,
    standardDeviation: Math.sqrt(shape) * scale,
    support: [0, Infinity],
    density: (x) => gammaDensity(shape, x / scale) / scale,
    distributionFunction: (x) => lowerGamma(shape, x / scale),
    upperTail: (x) => upperGamma(shape, x / scale),
    quantile: (p) => scale * gammaQuantile(shape, p),
    sample(from, out, count) {
      draw(from, 0, out, count);
      for (let i = 0; i < count; i++) out[i] = scale * out[i]!;
    },
  };
}

/** Density for scale 1. */
export function gammaDensity(shape: number, x: number): number {
  if (x < 0) return 0;
  if (x === 0) return shape < 1 ? Infinity : shape === 1 ? 1 : 0;
  return shape >= 1 ? poissonProbability(shape - 1, x) : (poissonProbability(shape, x) * shape) / x;
}

/** Quantile for scale 1. Newton's method on the logarithm of the smaller tail, which has the least curvature. */
export function gammaQuantile(shape: number, p: number): number {
  if (p === 0) return 0;
  if (p === 1) return Infinity;
  const density = (x: number): number => gammaDensity(shape, x);
  // For small x, P(a, x) = x^a/Γ(a + 1), and poissonProbability(a, 1) is 1/(e·Γ(a + 1)).
  const power = exp((ln(p) - ln(poissonProbability(shape, 1)) - 1) / shape);
  if (power < 1e-20) return power;
  // Wilson and Hilferty: the cube root of a gamma variate is nearly normal.
  const root = 1 - 1 / (9 * shape) + normalQuantile(p) / (3 * Math.sqrt(shape));
  const start = root > 0.3 ? shape * root * root * root : power;
  let low = 0;
  let high = Math.max(start, power, shape) * 2 + 2;
  while (lowerGamma(shape, high) < p) high *= 2;
  if (p <= 0.5) {
    const logarithm = (x: number): number => ln(lowerGamma(shape, x));
    return monotoneInverse(logarithm, (x) => density(x) / lowerGamma(shape, x), ln(p), low, high, start);
  }
  const logarithm = (x: number): number => -ln(upperGamma(shape, x));
  return monotoneInverse(logarithm, (x) => density(x) / upperGamma(shape, x), -ln(1 - p), low, high, start);
}

/** Objects counted, or any gamma quantity by its shape and scale. */
export const gamma = defineDistribution({
  kind: "gamma",
  statement: statementOf("gamma", {
    count: z
      .int()
      .gte(0)
      .lt(LARGEST_SHAPE)
      .optional()
      .meta(counted("Number q of objects counted: the expected count is then G(q + 1, 1) (JCGM 101, 6.4.11)")),
    shape: positive()
      .lte(LARGEST_SHAPE)
      .optional()
      .meta(ofOne("Shape, if no count is given: (mean / standard deviation)²")),
    scale: positive()
      .optional()
      .meta(
        inUnit(
          "Value of one count, or the scale with shape: standard deviation² / mean; with count, 1 if none is given",
        ),
      ),
  }),
  read({ count, shape, scale }, place) {
    if ((count === undefined) === (shape === undefined)) {
      refuse(
        `${place}.${count === undefined ? "count" : "shape"}`,
        count === undefined ? undefined : shape,
        "exactly one of count, and shape with scale",
      );
    }
    if (shape !== undefined && scale === undefined)
      refuse(`${place}.scale`, undefined, "a number greater than 0: shape needs its scale");
    const distribution = gammaDistribution(shape ?? count! + 1, scale ?? 1);
    return { distribution, budget: typeB(distribution.mean!, distribution.standardDeviation!) };
  },
});
