import { termsOfBudget } from "../convolution/terms-of-budget.ts";
import type { Interval } from "../coverage/coverage-interval.ts";
import { normalQuantile } from "../numerics/standard-normal.ts";
import type { Prepared } from "../prepared/prepare.ts";
import type { ExplanationFigures, MeasurandFigures } from "../record/figures.ts";
import { bitOf, comparedPropagations, type Compared } from "./compared-propagations.ts";
import { CAUSES } from "./causes.ts";
import { exactMoves } from "./exact-moves.ts";
import type { Cause, CausePart, EndMoves } from "../record/explanation.ts";
import { leftOver } from "./left-over.ts";
import { edgeworthShapes, madeByShapes, madeByTerms, type MadeBy } from "./made-by.ts";
import { recommend } from "./recommendation.ts";
import { minus, plus, shapley } from "./shapley.ts";

/** Fewest trials of each compared propagation. */
export const EXPLANATION_TRIALS = 50_000;
/** Shares are resolved where no more than this part of the difference, or of δ, is left over. */
const LEFT_OVER = 0.1;

/**
 * Why the linear and the Monte Carlo interval of each measurand differ: how far curvature of the model, shape of the
 * inputs and few degrees of freedom each move the ends, by Shapley value (L. S. Shapley, 1953: the only sharing out
 * that adds up, treats equals alike and gives nothing to what does nothing), and which inputs make them.
 *
 * Shape and degrees of freedom come from the exact distribution of the linearised model, curvature from paired trials; where
 * these are not to be had, all come from compared propagations.
 *
 * @param compared the compared propagations, if already available
 *
 * The budget's own allowance for few degrees of freedom, a k larger than the normal one, counts against that cause.
 */
export function explain(
  prepared: Prepared,
  measurands: Readonly<Record<string, MeasurandFigures>>,
  compared?: Compared,
): Record<string, ExplanationFigures> {
  let propagations = compared;
  return Object.fromEntries(
    Object.entries(measurands).map(([name, record]) => {
      const exact = exactMoves(prepared, name, record);
      if (exact !== null) {
        const made = madeByTerms(exact.terms, record, allowanceOf(prepared, record));
        return [name, explainOne(prepared, record, exact.intervals, record.monteCarlo.trials, made)];
      }
      propagations ??= comparedPropagations(prepared, EXPLANATION_TRIALS);
      const { intervals, trials } = propagations;
      const made = madeByShapes(edgeworthShapes(propagations, record), record);
      return [name, explainOne(prepared, record, intervals[name]!, trials, made)];
    }),
  );
}

/** Whether an explanation of the study takes compared propagations, as far as is known before its trials. */
export const needsComparison = ({ source, linear, correlations }: Prepared): boolean =>
  source.linearised.some((linearised) => linearised === null) ||
  Object.values(linear).some(
    ({ contributions }) => termsOfBudget(contributions, source.groups, correlations).kind === "copula",
  );

const size = ([low, high]: EndMoves): number => Math.max(Math.abs(low), Math.abs(high));

function explainOne(
  prepared: Prepared,
  record: MeasurandFigures,
  intervals: readonly Interval[],
  trials: number,
  madeBy: (cause: Cause) => MadeBy,
): ExplanationFigures {
  const difference = differenceOf(prepared, record);
  // The propagations start from the normal factor.
  const allowance = allowanceOf(prepared, record);
  const values = {} as Record<Cause, { shapley: EndMoves; alone: EndMoves }>;
  for (const cause of CAUSES) {
    const own = cause === "degreesOfFreedom" ? ([allowance, -allowance] as const) : ([0, 0] as const);
    values[cause] = {
      shapley: plus(shapley(intervals, bitOf(cause)), own),
      alone: plus(minus(intervals[bitOf(cause)]!, intervals[0]!), own),
    };
  }
  const whole = minus(intervals.at(-1)!, intervals[0]!);
  const alone = CAUSES.reduce<EndMoves>(
    (sum, cause) => plus(sum, minus(intervals[bitOf(cause)]!, intervals[0]!)),
    [0, 0],
  );
  const shared = sharedOut(values);
  // Shares are those of the end that differs more. What pushes it apart has parts of that push; what takes back has the
  // part of the push that it takes back, with a minus.
  const end = Math.abs(difference[1]) > Math.abs(difference[0]) ? 1 : 0;
  const direction = Math.sign(shared[end]);
  const pushes = CAUSES.map((cause) => Math.max(0, direction * values[cause].shapley[end]));
  const push = pushes.reduce((sum, value) => sum + value, 0);
  const parts = Object.fromEntries(
    CAUSES.map((cause): [Cause, CausePart] => [
      cause,
      {
        ...values[cause],
        share: push === 0 ? 0 : (direction * values[cause].shapley[end]) / push,
        ...madeBy(cause),
      },
    ]),
  ) as Record<Cause, CausePart>;
  const { remainder, resolved, recommendation } = concluded(prepared, record, parts);
  return {
    trials,
    difference,
    parts,
    interplay: minus(whole, alone),
    remainder,
    resolved,
    recommendation,
  };
}

/** What all causes together move, by their Shapley values. */
const sharedOut = (parts: Readonly<Record<Cause, Pick<CausePart, "shapley">>>): EndMoves =>
  CAUSES.reduce<EndMoves>((sum, cause) => plus(sum, parts[cause].shapley), [0, 0]);

/** Of paired trials where there are any, so that the scatter of the plain ones is none of what is explained. */
const differenceOf = (
  { coverage }: Pick<Prepared, "coverage">,
  { linear, monteCarlo, paired }: MeasurandFigures,
): EndMoves =>
  minus(paired?.kind === "figures" ? paired.interval : monteCarlo.intervals[coverage.interval], linear.interval);

/** What follows from a measurand's figures and the causes' parts alone, so that it can be made again from a record. */
export function concluded(
  prepared: Pick<Prepared, "coverage" | "study">,
  record: MeasurandFigures,
  parts: Readonly<Record<Cause, CausePart>>,
): Pick<ExplanationFigures, "difference" | "remainder" | "recommendation"> & { readonly resolved: boolean } {
  const difference = differenceOf(prepared, record);
  const remainder = minus(difference, sharedOut(parts));
  return {
    difference,
    remainder,
    resolved:
      leftOver(record, remainder) <=
      Math.max(LEFT_OVER * size(difference), LEFT_OVER * record.validation.numericalTolerance),
    recommendation: recommend(prepared, record, parts),
  };
}

/** Half of what the budget's interval is longer by its k beyond the normal one, for few degrees of freedom. */
const allowanceOf = ({ coverage }: Pick<Prepared, "coverage">, { linear }: MeasurandFigures): number =>
  (linear.coverageFactor - normalQuantile((1 + coverage.probability) / 2)) * linear.standardUncertainty;
