import type { RecommendationFact } from "../../explanation/recommendation-facts.ts";
import type { MessageTable } from "../messages.ts";
import { speech } from "./speech.ts";

const { fixed, significant, list } = speech;

export const recommendation: MessageTable<RecommendationFact> = {
  keep: ({ factor }) => `Keep the linear budget with k = ${fixed(factor, 2)}.`,
  nothingVaries: () =>
    "There is no uncertainty to report. If an input is not known exactly, state its standard uncertainty or its limits.",
  drawMore: () =>
    "Draw more trials, or as many as an adaptive run needs, until they decide the verdict; or report the Monte Carlo interval, which holds either way.",
  stateDeviation: () =>
    "State the quantity as its deviation from a nominal value, so that rounding of double-precision numbers is small beside δ, and run the study again.",
  stateDoubtfulLimits: ({ inputs, factor }) =>
    `The degrees of freedom of ${list(inputs.map(named))} stand for the reliability of stated limits (JCGM 100, G.4.2), which the Monte Carlo of these limits leaves out. Compare the budget with infinite degrees of freedom (k = ${fixed(factor, 2)}), or state a curvilinear trapezoid, whose limits are themselves uncertain (JCGM 101, 6.4.3).`,
  doubtfulSample: ({ inputs, factor }) =>
    `The degrees of freedom of ${list(inputs.map(named))} stand for how few values there are, which the Monte Carlo of these very values leaves out. Compare the budget with infinite degrees of freedom (k = ${fixed(factor, 2)}), or state a distribution.`,
  knowBetter: ({ input }) =>
    `Report the Monte Carlo interval, since the uncertainty of ${named(input)} is stated with few degrees of freedom. Only a source that knows it with more of them lets the linear budget hold.`,
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

const named = ({
  symbol,
  degreesOfFreedom,
}: {
  readonly symbol: string;
  readonly degreesOfFreedom: number | null;
}): string => (degreesOfFreedom === null ? symbol : `${symbol} (ν = ${significant(degreesOfFreedom, 3)})`);

const REASONS = {
  curvature: "no factor k compensates for the curvature of the model",
  asymmetry: "the result is not symmetric about the estimate",
} as const;
