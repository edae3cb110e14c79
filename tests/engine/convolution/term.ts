import type { LinearTerm } from "../../../engine/convolution/linear-term.ts";
import { linearisedOf, type Linearised } from "../../../engine/convolution/linearised.ts";
import { readStatement, type Statement } from "../../../engine/distributions/index.ts";

/** A term of a statement, as a budget has it. */
export function term(statement: Statement, coefficient = 1): LinearTerm {
  const { distribution, budget } = readStatement(statement, "inputs.x");
  return {
    inputs: ["x"],
    distribution,
    coefficient,
    centre: budget.estimate,
    twin: Math.abs(coefficient) * budget.standardUncertainty,
  };
}

export const rectangular = (halfWidth: number, coefficient = 1): LinearTerm =>
  term({ distribution: "rectangular", estimate: 0, halfWidth }, coefficient);
export const normal = (standardUncertainty: number, coefficient = 1): LinearTerm =>
  term({ distribution: "normal", estimate: 0, standardUncertainty }, coefficient);
export const studentT = (standardUncertainty: number, degreesOfFreedom: number): LinearTerm =>
  term({ distribution: "t", estimate: 0, standardUncertainty, degreesOfFreedom });

/** The distribution of the sum, which must be available. */
export function distributionOf(terms: readonly LinearTerm[], probability = 0.95, tolerance = 1e-4): Linearised {
  const found = linearisedOf(terms, { probability, tolerance });
  if (found.kind === "unavailable") throw new Error(JSON.stringify(found));
  return found;
}
