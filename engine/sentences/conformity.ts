import type { Quantity } from "../model.ts";
import { decimalsFor, toDecimals } from "../record/rounding.ts";
import type { AssessmentRecord, ConformityRecord } from "../conformity/conformity-record.ts";

/** Decision and risks in words, for the sheet. */
export function conformitySentence(record: Omit<ConformityRecord, "sentence">, { symbol, unit }: Quantity): string {
  const { tolerance, rule, prior, linear, monteCarlo, agree } = record;
  const { lower, upper, basis } = tolerance;
  const decimals = decimalsFor(monteCarlo.expandedUncertainty, 2);
  const inUnit = unit === "1" ? "" : ` ${unit}`;
  const rounded = (value: number): string => `${toDecimals(value, decimals)}${inUnit}`;
  const limits =
    lower === null
      ? `at most ${asStated(upper!)}${inUnit}`
      : `${upper === null ? `at least ${asStated(lower)}` : `from ${asStated(lower)} to ${asStated(upper)}`}${inUnit}`;
  const why = basis === null ? "" : ` (${basis})`;
  const band =
    rule.guardBandMultiplier === 0
      ? ""
      : `, guard band ${rounded(Math.abs(monteCarlo.guardBand))} ${monteCarlo.guardBand > 0 ? "inside" : "outside"} each limit`;
  const nothing = monteCarlo.acceptance === null ? " The guard bands leave no value that could be accepted." : "";
  const decision = `By ${rule.name}${band}, ${symbol} = ${rounded(monteCarlo.estimate)} is ${monteCarlo.decision}: it is to be ${limits}${why}.${nothing}`;
  const probability = ` The probability that it conforms is ${percent(monteCarlo)} by Monte Carlo, ${percent(linear)} by the linear budget;`;
  const { bearer, value } = monteCarlo.specificRisk;
  const risk = ` the ${bearer}'s risk of this decision is ${share(value)}.`;
  const differ = agree ? "" : ` The methods disagree: by the linear budget the item would be ${linear.decision}.`;
  const global = monteCarlo.globalRisk ?? linear.globalRisk;
  const before =
    prior === null || global === null
      ? ""
      : ` Of all items ${share(prior.probabilityOfConformity)} conform; the next one is accepted wrongly with probability ${share(global.consumer)} and rejected wrongly with ${share(global.producer)}.`;
  return `${decision}${probability}${risk}${differ}${before}`;
}

/** A limit as it was stated: rounding to the uncertainty would move it. 12 digits leave out what binary sums add. */
const asStated = (value: number): string => String(Number(value.toPrecision(12)));

/** A probability of conformity, with the digits of the smaller of it and its complement. */
function percent({ probabilityOfConformity: p, below, above }: AssessmentRecord): string {
  const rest = below + above;
  return rest < 0.0005 ? "over 99.95 %" : p < 0.0005 ? "under 0.05 %" : `${(100 * p).toFixed(1)} %`;
}

/** A risk in per cent. */
const share = (value: number): string =>
  value < 0.0005 ? "under 0.05 %" : value > 0.9995 ? "over 99.95 %" : `${(100 * value).toFixed(1)} %`;
