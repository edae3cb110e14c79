import type { Doubt } from "../../record/validation.ts";
import type { VerdictFact } from "../../validation/verdict-facts.ts";
import type { MessageTable } from "../messages.ts";
import { speech } from "./speech.ts";

const { figure, fixed, significant, percent, list } = speech;

/**
 * The verdict's sentences.
 *
 * @param named the symbol under which they speak of the measurand
 */
export const verdictOf = (named: (symbol: string) => string): MessageTable<VerdictFact> => {
  const digits = (symbol: string, count: number): string =>
    `${count} significant digit${count === 1 ? "" : "s"} of u(${named(symbol)})`;
  return {
    nothingVaries: () =>
      "Nothing varies: neither the linear budget nor the trials find any uncertainty, so there is nothing to validate.",
    noLinearUncertainty: ({ because }) =>
      `The linear budget finds no uncertainty, since ${because === "coefficients" ? "every sensitivity coefficient vanishes at the estimates" : "correlated contributions cancel"}. It is not validated; use the Monte Carlo interval.`,
    undecided: ({ symbol, significantDigits, difference, tolerance, doubts, standardError }) =>
      `The trials do not decide whether the linear budget is validated to ${digits(symbol, significantDigits)}: the endpoints of its interval differ from the Monte Carlo endpoints by at most ${figure(difference)}, δ = ${figure(tolerance)}, and ${list(doubts.map((doubt) => DOUBTS[doubt](standardError === null ? "" : figure(standardError))))}.`,
    validated: ({ symbol, significantDigits, difference, tolerance }) =>
      `The linear budget is validated to ${digits(symbol, significantDigits)}: the endpoints of its interval differ from the Monte Carlo endpoints by at most ${figure(difference)}, within δ = ${figure(tolerance)}.`,
    notValidated: ({ symbol, significantDigits, difference, tolerance }) =>
      `The linear budget is not validated to ${digits(symbol, significantDigits)}: an endpoint of its interval lies ${figure(difference)} from the Monte Carlo endpoint, more than δ = ${figure(tolerance)}.`,
    displaced: ({ direction, width }) =>
      width === null
        ? `The two intervals are equally wide to within 1 %, but the Monte Carlo interval lies ${direction} at both endpoints.`
        : `The Monte Carlo interval lies ${direction} at both endpoints, and the linear interval is ${wide(width)}.`,
    unplaced: () => "Which way its endpoints differ, the trials by themselves do not show.",
    oneEndpoint: ({ endpoint, direction }) =>
      `The ${endpoint} Monte Carlo endpoint lies further ${direction} than the linear one; the other endpoints agree within the scatter of the trials.`,
    tooWide: (width) => `The linear interval is ${wide(width)}${off(width.offCentre)}.`,
    tooNarrow: (width) => `The linear interval is ${wide(width)}${off(width.offCentre)}.`,
    factorNeeded: ({ factor }) =>
      `A coverage factor k = ${fixed(factor, 2)} would make it as wide as the Monte Carlo interval.`,
    validatedAt: ({ symbol, significantDigits }) => `To ${digits(symbol, significantDigits)} it is validated.`,
    firmUnsettled: () => "The Monte Carlo figures have not stabilised to δ/5, but the verdict does not depend on that.",
  };
};

/** The sentences of today. */
export const verdict = verdictOf((symbol) => symbol);

const DOUBTS: Readonly<Record<Doubt, (standardError: string) => string>> = {
  scatter: (standardError) => `the scatter of the Monte Carlo endpoint (standard error ${standardError}) allows either`,
  scatterUnknown: () => "the scatter of the Monte Carlo endpoints is not known from so few batches",
  fewTrials: () => "fewer than 50 trials lie beyond each endpoint",
  rounding: () => "the last bit of the numbers computed with is more than a tenth of δ",
};

/** A part in per cent, with two significant digits where it is small. */
const part = (fraction: number): string =>
  fraction < 0.001 ? `${significant(100 * fraction, 2)} %` : percent(fraction);

type Width = VerdictFact & { readonly kind: "tooWide" | "tooNarrow" };

const wide = ({ kind, fraction }: Width): string =>
  kind === "tooWide" ? `${part(fraction)} wider than necessary` : `${part(fraction)} too narrow`;

const off = (offCentre: boolean): string =>
  offCentre ? ", and the Monte Carlo interval is not centred on the estimate" : "";
