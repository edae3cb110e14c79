import type { RecommendationFact } from "../../explanation/recommendation-facts.ts";
import type { MessageTable } from "../messages.ts";
import { speech } from "./speech.ts";

const { fixed, significant, list } = speech;

export const recommendation: MessageTable<RecommendationFact> = {
  keep: ({ factor }) => `Keep the linear budget with k = ${fixed(factor, 2)}.`,
  drawMore: () => "Keep the linear budget after a run with more trials, or an adaptive run, has confirmed it.",
  gatherReadings({ input }) {
    const of = input === null ? "" : ` of ${input.symbol}`;
    const now =
      input === null || input.degreesOfFreedom === null ? "" : ` (now ν = ${significant(input.degreesOfFreedom, 3)})`;
    return `Gather more readings${of}${now}. Until then report the Monte Carlo interval, since the linear budget does not fully account for the uncertain spread of such a small sample.`;
  },
  keepWithFactor: ({ factor, linearFactor }) =>
    `Keep the linear budget with k = ${fixed(factor, 2)} in place of ${fixed(linearFactor, 2)}: the result is symmetric, and this factor gives the required coverage probability.`,
  addSecondOrder: ({ symbols }) =>
    `Add the second-order terms of ${list(symbols)} to the budget, which is then validated, or report the Monte Carlo interval.`,
  reportMonteCarlo: ({ because }) => `Report the Monte Carlo interval in place of the linear one: ${REASONS[because]}.`,
};

const REASONS = {
  curvature: "no factor k compensates for the curvature of the model",
  asymmetry: "the result is not symmetric about the estimate",
} as const;
