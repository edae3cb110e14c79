import type { VerdictFact } from "../../validation/verdict-facts.ts";
import type { MessageTable } from "../messages.ts";
import { speech } from "./speech.ts";

const { figure, fixed, percent } = speech;

const digits = (count: number): string => `${count} significant digit${count === 1 ? "" : "s"} of u(y)`;

export const verdict: MessageTable<VerdictFact> = {
  noLinearUncertainty: () =>
    "The linear budget gives no uncertainty, since every sensitivity coefficient vanishes at the estimates. It is not validated; use the Monte Carlo interval.",
  validated: ({ significantDigits, difference, tolerance }) =>
    `The linear budget is validated to ${digits(significantDigits)}: the endpoints of its interval differ from the Monte Carlo endpoints by at most ${figure(difference)}, within δ = ${figure(tolerance)}.`,
  notValidated: ({ significantDigits, difference, tolerance }) =>
    `The linear budget is not validated to ${digits(significantDigits)}: an endpoint of its interval lies ${figure(difference)} from the Monte Carlo endpoint, more than δ = ${figure(tolerance)}.`,
  displaced: () => "The two intervals are equally wide, but they lie at different places.",
  tooWide: ({ fraction, offCentre }) =>
    `The linear interval is ${percent(fraction)} wider than necessary${off(offCentre)}.`,
  tooNarrow: ({ fraction, offCentre }) => `The linear interval is ${percent(fraction)} too narrow${off(offCentre)}.`,
  factorNeeded: ({ factor }) =>
    `A coverage factor k = ${fixed(factor, 2)} would make it as wide as the Monte Carlo interval.`,
  validatedAt: ({ significantDigits }) => `To ${digits(significantDigits)} it is validated.`,
  provisional: () =>
    "The Monte Carlo figures have not stabilised to δ/5, so a run with more trials may change this verdict.",
  firmUnsettled: () => "The Monte Carlo figures have not stabilised to δ/5, but the verdict does not depend on that.",
};

const off = (offCentre: boolean): string =>
  offCentre ? ", and the Monte Carlo interval is not centred on the estimate" : "";
