import type { Prepared } from "../run/prepare.ts";
import type { MeasurandRecord } from "../record/record.ts";
import { decimalsFor, toDecimals } from "../record/rounding.ts";
import { CAUSES, type Cause, type CausePart } from "../explanation/explanation-record.ts";

const WORDS: Readonly<Record<Cause, string>> = {
  curvature: "the curvature of the model",
  shape: "the shape of the inputs",
  degreesOfFreedom: "few degrees of freedom",
};
/** A cause below this part of the difference is not spoken of. */
const WORTH_SAYING = 0.1;
const MOST_NAMED = 4;
/** A cause that moves the ends by less than this part of δ is none. */
const NO_CAUSE = 0.05;

/** Why the intervals differ, in a sentence or two. */
export function sentenceOf(
  prepared: Prepared,
  record: MeasurandRecord,
  parts: Readonly<Record<Cause, CausePart>>,
): string {
  const { validation } = record;
  const least = NO_CAUSE * validation.numericalTolerance;
  const ranked = CAUSES.filter(
    (cause) => parts[cause].share >= WORTH_SAYING && greatest(parts[cause].shapley) > least,
  ).sort((a, b) => parts[b].share - parts[a].share);
  if (ranked.length === 0)
    return "The two intervals agree within the scatter of the trials: neither curvature, shape nor few readings moves the ends.";
  const shares = ranked.map(
    (cause) =>
      `${Math.round(100 * parts[cause].share)} % from ${WORDS[cause]}${by(prepared, record, cause, parts[cause].inputs)}`,
  );
  const δ = validation.numericalTolerance;
  const unit = record.unit === "1" ? "" : ` ${record.unit}`;
  const size = toDecimals(Math.max(validation.dLow, validation.dHigh), decimalsFor(δ || validation.dHigh, 1) + 1);
  // Causes that pull against one another can leave a small difference by luck; a reader must know.
  const pulls = ranked.map((cause) => greatest(parts[cause].shapley));
  const left = Math.max(validation.dLow, validation.dHigh);
  if (ranked.length > 1 && Math.max(...pulls) > 2 * left && pulls.reduce((sum, pull) => sum + pull, 0) > 4 * left) {
    const digits = decimalsFor(left, 1) + 1;
    const each = ranked.map((cause) => {
      const [low, high] = parts[cause].shapley;
      const way =
        high - low > Math.abs(high + low) / 2 ? "widens" : low - high > Math.abs(high + low) / 2 ? "narrows" : "shifts";
      return `${WORDS[cause]}${by(prepared, record, cause, parts[cause].inputs)}, ${way} it by ${toDecimals(greatest(parts[cause].shapley), digits)}${unit} at an end`;
    });
    return `The ends differ by ${size}${unit} only because larger effects cancel: ${each.join("; ")}.`;
  }
  return `Of the difference of ${size}${unit} between the ends, ${joined(shares)}.${detail(record, ranked[0]!, parts)}`;
}

const greatest = ([low, high]: readonly [number, number]): number => Math.max(Math.abs(low), Math.abs(high));

function by(prepared: Prepared, record: MeasurandRecord, cause: Cause, inputs: readonly string[]): string {
  if (inputs.length === 0) return "";
  const named = inputs.slice(0, MOST_NAMED).map((name) => {
    const row = record.linear.contributions.find(({ input }) => input === name)!;
    if (cause === "degreesOfFreedom") return `${name} (ν = ${Number(row.degreesOfFreedom!.toPrecision(3))})`;
    if (cause === "shape")
      return `${name} (${prepared.study.inputs[name]!.distribution}, ${Math.round(100 * row.share)} % of u²)`;
    return name;
  });
  return `, above all ${joined(named)}`;
}

/** What the leading cause does, in the terms of the trade. */
function detail(
  { linear, validation }: MeasurandRecord,
  cause: Cause,
  parts: Readonly<Record<Cause, CausePart>>,
): string {
  const [low, high] = parts[cause].shapley;
  const k = validation.coverageFactorNeeded;
  const narrower = high - low < 0;
  const factors = k === null ? "" : ` than ${linear.coverageFactor.toFixed(2)}: ${k.toFixed(2)}`;
  if (cause === "shape" && narrower && k !== null && k < linear.coverageFactor) {
    return ` A distribution with limits where a normal has tails needs a smaller factor${factors} holds the same probability.`;
  }
  if (cause === "degreesOfFreedom" && !narrower && k !== null && k > linear.coverageFactor) {
    return ` So few readings leave the spread itself uncertain, and a larger factor is needed${factors}.`;
  }
  if (cause === "curvature") {
    if (linear.standardUncertainty === 0 || linear.contributions.every(({ contribution }) => contribution === 0)) {
      return " The sensitivity coefficients vanish at the estimates, where the model does not.";
    }
    return Math.abs(high + low) > Math.abs(high - low)
      ? " The curve shifts the whole interval to one side."
      : " Products of deviations, which the first order drops, widen the result.";
  }
  return "";
}

/** a; a and b; a, b and c. */
export const joined = (parts: readonly string[]): string =>
  parts.length < 2 ? (parts[0] ?? "") : `${parts.slice(0, -1).join(", ")} and ${parts.at(-1)}`;
