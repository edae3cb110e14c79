import type { Interval } from "../coverage/coverage-interval.ts";
import { normalQuantile } from "../numerics/standard-normal.ts";
import type { Prepared } from "../run/prepare.ts";
import type { ExplanationFigures, MeasurandFigures } from "../record/figures.ts";
import { bitOf, comparedPropagations, type Compared } from "./compared-propagations.ts";
import { CAUSES } from "./causes.ts";
import type { Cause, CausePart, EndMoves } from "../record/explanation.ts";
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
 * @param compared the compared propagations, if already available
 *
 * The budget's own allowance for few degrees of freedom, a k larger than the normal one, counts against that cause.
 */
export function explain(
  prepared: Prepared,
  measurands: Readonly<Record<string, MeasurandFigures>>,
  compared = comparedPropagations(prepared, EXPLANATION_TRIALS),
): Record<string, ExplanationFigures> {
  return Object.fromEntries(
    Object.entries(measurands).map(([name, record]) => [name, explainOne(prepared, compared, name, record)]),
  );
}

const minus = (a: Interval, b: Interval): EndMoves => [a[0] - b[0], a[1] - b[1]];
const plus = (a: EndMoves, b: EndMoves): EndMoves => [a[0] + b[0], a[1] + b[1]];
const size = ([low, high]: EndMoves): number => Math.max(Math.abs(low), Math.abs(high));

function explainOne(
  prepared: Prepared,
  compared: Compared,
  name: string,
  record: MeasurandFigures,
): ExplanationFigures {
  const { coverage } = prepared;
  const intervals = compared.intervals[name]!;
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
        inputs: responsible(cause, compared, record),
      },
    ]),
  ) as Record<Cause, CausePart>;
  const { remainder, resolved, recommendation } = concluded(prepared, record, parts);
  return {
    trials: compared.trials,
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

const differenceOf = ({ coverage }: Pick<Prepared, "coverage">, { linear, monteCarlo }: MeasurandFigures): EndMoves =>
  minus(monteCarlo.intervals[coverage.interval], linear.interval);

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
      size(remainder) <= Math.max(LEFT_OVER * size(difference), LEFT_OVER * record.validation.numericalTolerance),
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

/** The inputs that make a cause, the strongest first, by their theoretical effect on the endpoints. */
function responsible(cause: Cause, compared: Compared, { linear, secondOrder }: MeasurandFigures): string[] {
  const weights = new Map<string, number>();
  const add = (input: string, weight: number): void =>
    void weights.set(input, (weights.get(input) ?? 0) + Math.abs(weight));
  const u = linear.standardUncertainty;
  if (cause === "curvature") {
    for (const { between, term } of secondOrder?.terms ?? []) for (const input of new Set(between)) add(input, term);
  } else {
    // Finite degrees of freedom make k larger, whether their input is drawn from a t or not.
    linear.contributions.forEach(({ input, contribution, degreesOfFreedom }, i) => {
      const { overlooked, skewness, excessKurtosis } = compared.inputs[i]!;
      if ((cause === "shape" ? overlooked !== cause : degreesOfFreedom === null) || u === 0) return;
      const z = contribution / u;
      // Edgeworth: the endpoints move with the third and fourth cumulants, κ₃/6 and κ₄/24. A t's fourth goes with 1/ν.
      if (cause === "shape") add(input, (z * z * z * skewness) / 6 + (z * z * z * z * Math.abs(excessKurtosis)) / 24);
      else add(input, (z * z * z * z) / degreesOfFreedom!);
    });
  }
  const total = [...weights.values()].reduce((sum, weight) => sum + weight, 0);
  return [...weights]
    .filter(([, weight]) => total > 0 && weight >= WORTH_NAMING * total)
    .sort((a, b) => b[1] - a[1])
    .map(([input]) => input);
}
