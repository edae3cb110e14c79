import type { ConformityFact } from "../../conformity/conformity-facts.ts";
import type { Tolerance } from "../../tolerance.ts";
import type { MessageTable } from "../messages.ts";
import { unitAfter } from "../speech.ts";
import { speech } from "./speech.ts";

const { figure, significant, chance } = speech;

export const conformity: MessageTable<ConformityFact> = {
  decision({ rule, guardBand, symbol, estimate, decision, tolerance, unit }) {
    const band = guardBand === null ? "" : ` with ${bandWords(guardBand)}`;
    const basis = tolerance.basis === null ? "" : ` (${tolerance.basis})`;
    return `By ${rule}${band}, ${symbol} = ${figure(estimate)} is ${decision}. The requirement is ${limits(tolerance, unit)}${basis}.`;
  },
  nothingAcceptable: () => "The guard bands leave no value that could be accepted.",
  withinScatter: ({ linear }) =>
    `The trials do not decide this: the result lies within their scatter of an acceptance limit, so another seed may decide otherwise. More trials are needed; by the linear budget the item is ${linear}.`,
  posterior: ({ conforming, bearer, risk }) =>
    `With the prior knowledge of the items, the probability of conformity is ${chance(conforming)} and the ${bearer}'s risk of this decision is ${chance(risk)} (JCGM 106, 7.2).`,
  risk: ({ alone, monteCarlo, linear, bearer, risk }) =>
    `${alone ? "From the measurement alone, the" : "The"} probability of conformity is ${chance(monteCarlo)} by Monte Carlo and ${chance(linear)} by the linear budget; the ${bearer}'s risk of this decision is ${chance(risk)}.`,
  methodsDisagree: ({ linear }) => `The methods disagree: by the linear budget the item would be ${linear}.`,
  beforeMeasurement: ({ conforming, consumer, producer }) =>
    `A share of ${chance(conforming)} of all items conforms; the next item is accepted wrongly with probability ${chance(consumer)} and rejected wrongly with probability ${chance(producer)}.`,
};

function bandWords({
  lower,
  upper,
  at,
  side,
}: NonNullable<(ConformityFact & { kind: "decision" })["guardBand"]>): string {
  switch (at) {
    case "each":
      return `a guard band of ${figure(upper)} ${side} each tolerance limit`;
    case "apart":
      return `guard bands of ${figure(lower)} ${side} the lower and ${figure(upper)} ${side} the upper tolerance limit`;
    case "lower":
      return `a guard band of ${figure(lower)} ${side} the tolerance limit`;
    case "upper":
      return `a guard band of ${figure(upper)} ${side} the tolerance limit`;
  }
}

/** Limits as they were stated: rounding to the uncertainty would move them. 12 digits hide the rounding errors of binary sums. */
function limits({ lower, upper }: Tolerance, unit: string): string {
  const stated = (value: number): string => significant(value, 12);
  const range =
    lower === null
      ? `at most ${stated(upper!)}`
      : upper === null
        ? `at least ${stated(lower)}`
        : `from ${stated(lower)} to ${stated(upper)}`;
  return `${range}${unitAfter(unit)}`;
}
