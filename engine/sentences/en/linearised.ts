import type { LinearisedFact } from "../../convolution/linearised-facts.ts";
import type { MessageTable } from "../messages.ts";
import { speech } from "./speech.ts";

const { fixed, list, significant } = speech;

const have = (inputs: readonly string[]): string => (inputs.length === 1 ? "has" : "have");

export const linearised: MessageTable<LinearisedFact> = {
  factor: ({ symbol, factor, linearFactor, probability }) =>
    `With the stated distributions in place of a normal, the linearised model needs k = ${fixed(factor, 2)} for ${symbol} ± k·u to hold ${significant(100 * probability, 6)} % (by convolution, without trials); the budget takes k = ${fixed(linearFactor, 2)}.`,
  noFactor: ({ symbol }) => `The linear budget has no uncertainty of ${symbol} that a factor k could multiply.`,
  decisive: ({ inputs, factor }) =>
    `The distribution of ${list(inputs)} matters most to this k: were it normal with the same standard uncertainty, k would be ${fixed(factor, 2)}.`,
  nothingVaries: () => "In the linearised model nothing varies, so it has no distribution.",
  noStandardDeviation: ({ inputs }) =>
    `The distribution of the linearised model is not given: ${list(inputs)} ${have(inputs)} no standard deviation (a t with ν ≤ 2).`,
  copula: ({ inputs }) =>
    `The distribution of the linearised model is not given: ${list(inputs)} depend on one another and are not jointly normal or t, so only trials give the distribution of their sum.`,
  accuracy: () =>
    "The distribution of the linearised model is not given: its endpoints cannot be computed to δ/1000, since the coverage probability is too near 1 or the tails are too heavy.",
};
