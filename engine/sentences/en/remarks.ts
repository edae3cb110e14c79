import type { RemarkFact } from "../../remarks/remark-facts.ts";
import type { MessageTable } from "../messages.ts";
import { unitAfter } from "../speech.ts";
import { speech } from "./speech.ts";

const { fixed, significant, wholePercent, list } = speech;

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
  drawnTogether: ({ symbols, from, correlations, degreesOfFreedom, stated }) =>
    `${list(symbols)} are drawn together from a ${JOINT[from]}${degreesOfFreedom === null ? "" : ` with ν = ${significant(degreesOfFreedom, 4)}`}; the correlation of their values is ${correlations.map(({ between, coefficient }) => `r(${between.join(", ")}) = ${significant(coefficient, 4)}`).join(", ")}.${degreesOfFreedom === null || stated ? "" : " They share their scatter, as simultaneous readings do (JCGM 102, 5.3.2), and are not independent even if r is 0. If each has its own series, state the correlation's series as separate."}`,
  autocorrelated: ({ symbol, count, lagOne, effective }) =>
    `The ${significant(count, 12)} readings of ${symbol} follow one another closely: their autocorrelation at lag 1 is ${fixed(lagOne, 2)}, so they are worth about ${significant(effective, 2)} independent readings, and s/√n understates the standard uncertainty of their mean by a factor of about ${significant(Math.sqrt(count / effective), 2)} (JCGM 100, 4.2.7).`,
  fewDegreesOfFreedom: ({ symbol, factor, degreesOfFreedom, covered, needed }) =>
    `The fixed factor k = ${significant(factor, 12)} assumes more degrees of freedom than the budget of ${symbol} has: with ${significant(degreesOfFreedom, 3)} effective degrees of freedom it covers ${fixed(100 * covered, 1)} %, and k = ${fixed(needed, 2)} would cover what it claims (JCGM 100, G.6.4).`,
  notSmooth: ({ symbol, symbols }) =>
    `At the estimate of ${list(symbols)} the model of ${symbol} has a kink or a step, so its sensitivity coefficient there is not one number: the linear budget does not describe it, and there is no second-order budget. Use the Monte Carlo interval.`,
  dominant: ({ symbol, input, share, unit }) =>
    `${input} alone makes up ${fixed(100 * share, 2)} % of u²(${symbol}). Check that its figures are in ${unit === "1" ? "the unit that the model expects" : unit}.`,
  noFourthMoment: ({ symbols, results }) =>
    `${symbols.length === 1 ? "The distribution" : "The distributions"} of ${list(symbols)} ${symbols.length === 1 ? "has" : "have"} no fourth moment (ν ≤ 4), so the Monte Carlo ${results.length === 1 ? `u(${results[0]})` : "standard uncertainty"} has no standard error: it settles slowly, mostly from below, and the adaptive procedure does not wait for it. The endpoints are not affected.`,
  heavyTail: ({ symbol, index, mean }) =>
    `A tail of ${symbol} falls off so slowly (with a power of about ${significant(index, 2)}) that ${mean ? `u(${symbol}) does not settle` : `neither its mean nor u(${symbol}) settles`}, as for a distribution that has none: their Monte Carlo figures depend on a few trials and have no standard error. The endpoints exist; state the coverage interval.`,
  fewTrials: ({ trials, recommended, probability }) =>
    `${trials} trials are fewer than the ${recommended}, 10⁴/(1 − p), recommended for a coverage probability of ${significant(100 * probability, 6)} % (JCGM 101, 7.2.2); the standard errors show how far the endpoints are known.`,
  rounding: ({ symbol }) =>
    `The last bit of the double-precision numbers that ${symbol} is computed with is more than a tenth of δ, so rounding decides the result. State the quantity as its deviation from a nominal value.`,
  sharesAbove: ({ symbol, sum, taken, between }) =>
    `The shares of u²(${symbol}) add to ${wholePercent(sum)}, since the correlation between ${list(between.map(([a, b]) => `${a} and ${b}`))} takes ${wholePercent(taken)} from them: a share above 100 % is what the input would contribute without it.`,
  fixedFactor: ({ factor, probability }) =>
    `The budget uses the fixed factor k = ${significant(factor, 12)}; the Monte Carlo interval has the coverage probability that this factor gives for a normal distribution, ${fixed(100 * probability, 2)} %.`,
  undefinedTrials: ({ count, drawn }) =>
    count === 0
      ? `The study leaves out trials for which the model is undefined; of ${significant(drawn, 12)} drawn there was none.`
      : `${significant(count, 12)} of ${significant(drawn, 12)} trials drawn, ${significant((100 * count) / drawn, 2)} %, were left out since the model is undefined for them. The Monte Carlo result is that of the inputs given that the model is defined. There is no explanation of its difference from the linear budget and no band of a curve: these compare models trial by trial, and the linear model is defined where this one is not.`,
  noJointFigures: ({ symbols }) =>
    `The covariances of ${list(symbols)} lie beyond the range of double-precision numbers, so there are no joint figures. State the quantities in units in which their values are nearer 1.`,
  noSource: ({ symbols }) => `No source is stated for ${list(symbols)}.`,
  fitted: ({ symbol, unit, points, degreesOfFreedom, residualDeviation, largest, argument }) =>
    (residualDeviation === null
      ? `The curve of ${symbol} has as many parameters as points (${points}) and passes through all of them, so that it does not show how well its form fits.`
      : `The ${points} points leave the curve of ${symbol} by s = ${significant(residualDeviation, 2)}${unitAfter(unit)} with ${degreesOfFreedom} degrees of freedom; the largest residual is ${significant(largest, 2)}${unitAfter(argument.unit)} of ${argument.symbol}.`) +
    " What the curve departs from the truth between its points is in the budget only where an input states it.",
  engineBits: () =>
    "The model uses functions whose last bits differ between JavaScript engines, so this record reproduces exactly, bit for bit, only on the same engine version.",
  counted: ({ symbol, resolution, unit, timesSmaller }) =>
    `The trials of ${symbol} were counted in bins and not kept: the endpoints of its symmetric interval are known to within ${significant(resolution, 2)}${unitAfter(unit)}, which is ${timesSmaller >= 1 ? `${significant(timesSmaller, 2)} times smaller` : `${significant(1 / timesSmaller, 2)} times larger`} than δ.`,
};
