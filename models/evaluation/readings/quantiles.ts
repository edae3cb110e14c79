import { readStatement } from "../../../engine/internal.ts";

/** Quantile of Student's t, by the engine's own distribution. */
export function tQuantile(p: number, degreesOfFreedom: number): number {
  const stated = { distribution: "t", estimate: 0, standardUncertainty: 1, degreesOfFreedom } as const;
  return readStatement(stated, "t").distribution.quantile(p);
}

/** Quantile of the standard normal distribution. */
export const normalQuantile = (p: number): number => standardNormal().quantile(p);

/** P(Z ≤ z) of the standard normal distribution. */
export const normalProbability = (z: number): number => standardNormal().distributionFunction(z);

const standardNormal = () =>
  readStatement({ distribution: "normal", estimate: 0, standardUncertainty: 1 }, "z").distribution;
