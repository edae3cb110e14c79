// Models of two standard normal inputs, from linear to one that has little of its linear part left, with their true figures.
import { defineModel, findRoot, type Model } from "../../../engine/index.ts";
import { normalDensity, normalDistributionFunction, normalQuantile } from "../../../engine/numerics/standard-normal.ts";
import type { ExactLinearised } from "../../../engine/paired/paired-estimates.ts";

export interface KnownModel {
  readonly title: string;
  readonly model: Model;
  /** Standard deviation of the linearised model, which is normal. */
  readonly linear: number;
  readonly mean: number;
  readonly deviation: number;
  /** The 2.5 % and 97.5 % quantiles. */
  readonly ends: readonly [number, number];
}

/** Σ f(b)·φ(b) over a fine lattice: for analytic f exact to rounding (trapezoidal rule on the line). */
function meanOver(f: (b: number) => number): number {
  const step = 1 / 128;
  let sum = 0;
  for (let i = -9 / step; i <= 9 / step; i++) sum += step * normalDensity(i * step) * f(i * step);
  return sum;
}

const quantity = (symbol: string) => ({ symbol, meaning: symbol, unit: "1" });

function known(
  title: string,
  linear: number,
  evaluate: (x: { readonly a: number; readonly b: number }) => number,
  mean: number,
  deviation: number,
  distributionFunction: (y: number) => number,
): KnownModel {
  const end = (p: number): number => findRoot((y, q) => distributionFunction(y) - q, p, -40, 80);
  return {
    title,
    model: defineModel({
      id: "known",
      title,
      measurands: { y: quantity("y") },
      inputs: { a: quantity("a"), b: quantity("b") },
      evaluate,
    }),
    linear,
    mean,
    deviation,
    ends: [end(0.025), end(0.975)],
  };
}

const Φ = normalDistributionFunction;

/** y = a + ε(b² − 1): what bends is independent of the linear part. */
export const square = (ε: number): KnownModel =>
  known(
    `a + ${ε}(b² − 1)`,
    1,
    ({ a, b }) => a + ε * (b * b - 1),
    0,
    Math.sqrt(1 + 2 * ε * ε),
    (y) => meanOver((b) => Φ(y - ε * (b * b - 1))),
  );

/** y = e^{sa}: the linear part itself bends. */
export const exponential = (s: number): KnownModel =>
  known(
    `exp(${s}a)`,
    s,
    ({ a }) => Math.exp(s * a),
    Math.exp((s * s) / 2),
    Math.exp((s * s) / 2) * Math.sqrt(Math.exp(s * s) - 1),
    (y) => (y <= 0 ? 0 : Φ(Math.log(y) / s)),
  );

/** y = a² + 0.3b: of a, which makes nearly all of y, the linearised model knows nothing. */
export const unrelated: KnownModel = known(
  "a² + 0.3b",
  0.3,
  ({ a, b }) => a * a + 0.3 * b,
  1,
  Math.sqrt(2.09),
  (y) => meanOver((a) => Φ((y - a * a) / 0.3)),
);

/** The linearised model of either, which is normal. */
export const linearised = ({ linear }: KnownModel): ExactLinearised => ({
  mean: 0,
  standardDeviation: linear,
  distributionFunction: (d) => Φ(d / linear),
  upperTail: (d) => Φ(-d / linear),
  quantile: (p) => linear * normalQuantile(p),
  upperQuantile: (p) => -linear * normalQuantile(p),
});
