import type { SensitivityFact } from "../../sensitivity/sensitivity-facts.ts";
import type { MessageTable } from "../messages.ts";
import { speech } from "./speech.ts";

const { percent, list } = speech;

export const sensitivity: MessageTable<SensitivityFact> = {
  noVariance: ({ symbol, factors }) =>
    `The shares of the variance of ${symbol} do not exist: ${list(factors)} ${factors.length === 1 ? "has a distribution" : "have distributions"} without a standard deviation (ν ≤ 2).`,
  doesNotVary: ({ symbol }) => `${symbol} does not vary, so it has no variance to divide.`,
  alone: ({ symbol, factors }) =>
    factors.length === 0
      ? `No input alone explains a part of the variance of ${symbol}.`
      : `Of the variance of ${symbol}, ${list(factors.map(({ factor, share }, i) => `${factor}${i === 0 ? " alone explains" : ""} ${percent(share)}`))}.`,
  together: ({ share, factors }) =>
    `${percent(share)} arises only from inputs acting together${factors.length === 0 ? "" : `, above all ${list(factors)}`}.`,
  notTogether: () => "No part from inputs acting together is seen.",
  budgetMisjudges: ({ factors }) =>
    `The linear budget misjudges this: ${factors.map(({ factor, share, total }) => `it assigns ${percent(share)} to ${factor}, whose total index is ${percent(total)}`).join("; ")}.`,
};
