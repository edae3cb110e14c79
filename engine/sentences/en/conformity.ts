import type { ConformityFact } from "../../conformity/conformity-facts.ts";
import type { Tolerance } from "../../conformity/tolerance.ts";
import type { MessageTable } from "../messages.ts";
import { unitAfter } from "../speech.ts";
import { speech } from "./speech.ts";

const { figure, significant, chance } = speech;

export const conformity: MessageTable<ConformityFact> = {
  decision({ rule, guardBand, symbol, estimate, decision, tolerance, unit }) {
    const band =
      guardBand === null ? "" : ` with a guard band of ${figure(guardBand)} ${guardBand.side} each tolerance limit`;
    const basis = tolerance.basis === null ? "" : ` (${tolerance.basis})`;
    return `By ${rule}${band}, ${symbol} = ${figure(estimate)} is ${decision}. The requirement is ${limits(tolerance, unit)}${basis}.`;
  },
  nothingAcceptable: () => "The guard bands leave no value that could be accepted.",
  risk: ({ monteCarlo, linear, bearer, risk }) =>
    `The probability of conformity is ${chance(monteCarlo)} by Monte Carlo and ${chance(linear)} by the linear budget; the ${bearer}'s risk of this decision is ${share(risk)}.`,
  methodsDisagree: ({ linear }) => `The methods disagree: by the linear budget the item would be ${linear}.`,
  beforeMeasurement: ({ conforming, consumer, producer }) =>
    `Of all items, ${share(conforming)} conform; the next item is accepted wrongly with probability ${share(consumer)} and rejected wrongly with probability ${share(producer)}.`,
};

/** Limits as they were stated: rounding to the uncertainty would move them. 12 digits leave out what binary sums add. */
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

const share = (value: number): string => chance({ value, rest: 1 - value });
