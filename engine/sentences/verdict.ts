import type { LinearBudget } from "../linear/budget.ts";
import type { Interval } from "../coverage/coverage-interval.ts";
import type { ValidationRecord } from "../record/record.ts";
import { decimalsFor, toDecimals } from "../record/rounding.ts";

/** The comparison of clause 8 in words: what was found, by how much, and what follows. */
export function verdictSentence(
  comparison: Omit<ValidationRecord, "sentence">,
  budget: LinearBudget,
  interval: Interval,
  context: { readonly unit: string; readonly scatter: number },
): string {
  const {
    significantDigits: digits,
    numericalTolerance: δ,
    dLow,
    dHigh,
    validated,
    settled,
    firm,
    coverageFactorNeeded: k,
  } = comparison;
  const unit = context.unit === "1" ? "" : ` ${context.unit}`;
  const length = (value: number): string => `${toDecimals(value, decimalsFor(δ || value, 1) + 1)}${unit}`;
  const worst = Math.max(dLow, dHigh);
  const digitWords = `to ${digits} significant digit${digits === 1 ? "" : "s"} of u(y)`;
  const doubt = settled
    ? ""
    : firm
      ? " (The Monte Carlo figures had not settled to a fifth of δ, but the verdict does not hang on that.)"
      : " The Monte Carlo figures had not settled to a fifth of δ, so a run with more trials may change this.";
  if (budget.standardUncertainty === 0) {
    return `The linear budget finds no uncertainty at all, since every sensitivity coefficient vanishes at the estimates: it is not validated, and the Monte Carlo interval stands.${doubt}`;
  }
  if (validated) {
    return `The linear budget is validated ${digitWords}: the ends of its interval differ from the Monte Carlo ends by at most ${length(worst)}, within δ = ${length(δ)}.${doubt}`;
  }
  const relative = ((interval[1] - interval[0]) / (budget.interval[1] - budget.interval[0]) - 1) * 100;
  const wider =
    Math.abs(relative) < 1
      ? "the two intervals are equally long but do not lie at the same place"
      : relative < 0
        ? `the linear interval is ${percent(100 / (1 + relative / 100) - 100)} longer than it need be`
        : `the linear interval is ${percent((100 * relative) / (100 + relative))} too short`;
  const shifted =
    Math.abs(dHigh - dLow) > δ + 2 * context.scatter && Math.abs(relative) >= 1
      ? ", and the Monte Carlo interval is not centred on the estimate"
      : "";
  const other = comparison.atDigits.find((at) => at.validated && at.significantDigits !== digits);
  const coarser = other === undefined ? "" : ` To ${other.significantDigits} digit it is validated.`;
  return `The linear budget is not validated ${digitWords}: an end of its interval is ${length(worst)} from the Monte Carlo end, more than δ = ${length(δ)}; ${wider}${shifted}. A factor k = ${k!.toFixed(2)} would give an interval as long as the Monte Carlo one.${coarser}${doubt}`;
}

const percent = (value: number): string => `${value < 10 ? value.toFixed(1) : value.toFixed(0)} %`;
