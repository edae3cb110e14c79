import type { RemarkFact } from "../../run/remark-facts.ts";
import type { MessageTable } from "../messages.ts";
import { unitAfter } from "../speech.ts";
import { speech } from "./speech.ts";

const { fixed, significant, list } = speech;

const JOINT: Readonly<Record<(RemarkFact & { kind: "drawnTogether" })["from"], string>> = {
  "multivariate normal": "multivariate normal distribution",
  "multivariate t": "multivariate t distribution",
  "Gaussian copula": "Gaussian copula",
};

export const remarks: MessageTable<RemarkFact> = {
  tDiffers: ({ symbols }) =>
    `For ${list(symbols)} the two methods differ by definition: the budget takes the standard uncertainty with its degrees of freedom (JCGM 100, 4.2), while Monte Carlo draws from a t distribution, whose standard deviation is larger by √(ν/(ν − 2)) (JCGM 101, 6.4.9).`,
  noStandardDeviation: ({ symbols }) =>
    `${symbols.length === 1 ? "The distribution" : "The distributions"} of ${list(symbols)} ${symbols.length === 1 ? "has" : "have"} no standard deviation (ν ≤ 2), so Monte Carlo gives none for the result. The coverage interval exists and is given.`,
  drawnTogether: ({ symbols, from, correlations }) =>
    `${list(symbols)} are drawn together from a ${JOINT[from]}; the correlation of their values is ${correlations.map(({ between, coefficient }) => `r(${between.join(", ")}) = ${significant(coefficient, 4)}`).join(", ")}.`,
  fixedFactor: ({ factor, probability }) =>
    `The budget uses the fixed factor k = ${significant(factor, 12)}; the Monte Carlo interval has the coverage probability that this factor gives for a normal distribution, ${fixed(100 * probability, 2)} %.`,
  noSource: ({ symbols }) => `No source is stated for ${list(symbols)}.`,
  engineBits: () =>
    "The model uses functions whose last bits differ between JavaScript engines, so this record reproduces exactly, bit for bit, only on the same engine version.",
  counted: ({ symbol, resolution, unit, timesSmaller }) =>
    `The trials of ${symbol} were counted in bins and not kept: the endpoints of its symmetric interval are known to within ${significant(resolution, 2)}${unitAfter(unit)}, which is ${significant(timesSmaller, 2)} times smaller than δ.`,
};
