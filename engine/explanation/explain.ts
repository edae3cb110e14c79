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
import { recommend } from "./recommendation.ts";

/** Fewest trials of each compared propagation. */
export const EXPLANATION_TRIALS = 50_000;
/** Shares are resolved where no more than this part of the difference, or of δ, is left over. */
const LEFT_OVER = 0.1;
/** An input is named where it makes at least this part of a cause. */
const WORTH_NAMING = 0.02;

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
  let made = compared;
  return Object.fromEntries(
    Object.entries(measurands).map(([name, record]) => {
      const exact = exactMoves(prepared, name, record);
      if (exact !== null) {
        const responsibles = (cause: Cause): string[] => responsible(cause, exact.shapes, record);
        return [name, explainOne(prepared, record, exact.intervals, record.monteCarlo.trials, responsibles)];
      }
      made ??= comparedPropagations(prepared, EXPLANATION_TRIALS);
      const { intervals, trials } = made;
      const shapes = edgeworthShapes(made, record);
      return [
        name,
        explainOne(prepared, record, intervals[name]!, trials, (cause) => responsible(cause, shapes, record)),
      ];
    }),
  );
}

/** Whether an explanation of the study takes compared propagations, as far as is known before its trials. */
export const needsComparison = ({ source, linear, correlations }: Prepared): boolean =>
  source.linearised.some((linearised) => linearised === null) ||
  Object.values(linear).some(
    ({ contributions }) => termsOfBudget(contributions, source.groups, correlations).kind === "copula",
  );

const minus = (a: Interval, b: Interval): EndMoves => [a[0] - b[0], a[1] - b[1]];
const plus = (a: EndMoves, b: EndMoves): EndMoves => [a[0] + b[0], a[1] + b[1]];
const size = ([low, high]: EndMoves): number => Math.max(Math.abs(low), Math.abs(high));

function explainOne(
  prepared: Prepared,
  record: MeasurandFigures,
  intervals: readonly Interval[],
  trials: number,
  responsibles: (cause: Cause) => string[],
): ExplanationFigures {
  const { coverage } = prepared;
  const { linear } = record;
  const difference = differenceOf(prepared, record);
  // What the budget's k allows beyond the normal one; the propagations start from the normal.
  const allowance =
    (linear.coverageFactor - normalQuantile((1 + coverage.probability) / 2)) * linear.standardUncertainty;
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
        inputs: responsibles(cause),
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

/** The Shapley value of one of three causes: its moves averaged over all orders of letting them in. */
function shapley(intervals: readonly Interval[], bit: number): EndMoves {
  const others = CAUSES.map(bitOf).filter((other) => other !== bit);
  const [a, b] = [others[0]!, others[1]!];
  const move = (set: number): EndMoves => minus(intervals[set | bit]!, intervals[set]!);
  const weighted = (moves: readonly (readonly [EndMoves, number])[]): EndMoves =>
    moves.reduce<EndMoves>((sum, [[low, high], weight]) => [sum[0] + low * weight, sum[1] + high * weight], [0, 0]);
  // First, last, or in between after either of the other two: 2, 2, 1 and 1 of the 6 orders.
  return weighted([
    [move(0), 2 / 6],
    [move(a), 1 / 6],
    [move(b), 1 / 6],
    [move(a | b), 2 / 6],
  ]);
}

/** How far each input's shape moves the endpoints, in units of u, by Edgeworth: with κ₃/6 and κ₄/24. */
function edgeworthShapes({ inputs }: Compared, { linear }: MeasurandFigures): ReadonlyMap<string, number> {
  const u = linear.standardUncertainty;
  return new Map(
    linear.contributions.flatMap(({ input, contribution }, i) => {
      const { overlooked, skewness, excessKurtosis } = inputs[i]!;
      if (overlooked !== "shape" || u === 0) return [];
      const z = contribution / u;
      return [[input, Math.abs((z * z * z * skewness) / 6 + (z * z * z * z * Math.abs(excessKurtosis)) / 24)]];
    }),
  );
}

/** The inputs that make a cause, the strongest first, by their effect on the endpoints. */
function responsible(
  cause: Cause,
  shapes: ReadonlyMap<string, number>,
  { linear, secondOrder }: MeasurandFigures,
): string[] {
  const weights = new Map<string, number>(cause === "shape" ? shapes : []);
  const add = (input: string, weight: number): void =>
    void weights.set(input, (weights.get(input) ?? 0) + Math.abs(weight));
  const u = linear.standardUncertainty;
  if (cause === "curvature") {
    for (const { between, term } of secondOrder?.terms ?? []) for (const input of new Set(between)) add(input, term);
  } else if (cause === "degreesOfFreedom" && u !== 0) {
    // Finite degrees of freedom make k larger, whether their input is drawn from a t or not. A t's fourth cumulant goes with 1/ν.
    for (const { input, contribution, degreesOfFreedom } of linear.contributions) {
      const z = contribution / u;
      if (degreesOfFreedom !== null) add(input, (z * z * z * z) / degreesOfFreedom);
    }
  }
  const total = [...weights.values()].reduce((sum, weight) => sum + weight, 0);
  return [...weights]
    .filter(([, weight]) => total > 0 && weight >= WORTH_NAMING * total)
    .sort((a, b) => b[1] - a[1])
    .map(([input]) => input);
}
