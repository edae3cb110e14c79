import { shortestInterval, symmetricRanks } from "../coverage/coverage-interval.ts";
import { linearBudget } from "../linear/budget.ts";
import type { CalibrationCurve, Model } from "../model.ts";
import type { Prepared } from "../prepared/prepare.ts";
import { momentsOf, standardDeviation } from "../statistics/moments.ts";
import { sortedSample } from "../statistics/sample.ts";
import { selectOfMany } from "../statistics/select.ts";
import { firstTrialsAgain, openCurve, type MeasurandColumns } from "./curve-values.ts";
import type { CurvePoint, CurveRecord } from "../record/joint.ts";

/** Number of arguments at which a curve is evaluated, including both ends of its range. */
const ARGUMENTS = 41;
/** Greatest number of trials for a band: the endpoints of a 95 % interval then have errors of about 1 % of u. */
const MOST_TRIALS = 100_000;

/**
 * The calibration curve whose parameters are a model's measurands, with its uncertainty at 41 arguments over its range.
 * The linear budget of the curve's value includes the covariance of the parameters through its sensitivity coefficients
 * (JCGM 100, H.3.4). The trials give one curve each, and these give the distribution at every argument (JCGM 101, 7.7).
 * A coverage interval applies to its argument only; it is not a statement about the whole curve at once.
 *
 * The trials are the run's first 100 000, so that neither time nor memory grows with the run.
 *
 * @param trials number of trials that the run has made
 * @param kept what the run has kept of the first of them; without it they are drawn again, identical bit for bit
 * @returns `null` if the model declares no curve
 * @throws {ModelError} a curve that is not finite at one of the arguments
 */
export function curveBand(
  prepared: Prepared,
  trials: number,
  kept: MeasurandColumns | null = null,
): CurveRecord | null {
  const { model, coverage, knowledge, linear } = prepared;
  const curve = model.calibrationCurve;
  if (curve === undefined) return null;
  const { from, to, ...argument } = curve.argument;
  const places = argumentsOf(curve);
  const count = Math.min(trials, MOST_TRIALS);
  const first = kept !== null && lengthOf(kept) >= count ? kept : firstTrialsAgain(prepared, count);
  const valuesAt = openCurve(model, curve);
  const values = new Float64Array(count);
  const budgets = linearAt(prepared, curve, places);
  const estimates = Object.fromEntries(Object.entries(knowledge).map(([name, { budget }]) => [name, budget.estimate]));
  const fitted = Object.fromEntries(Object.entries(linear).map(([name, { estimate }]) => [name, estimate]));
  const observed = (curve.observed?.(estimates) ?? []).map(([at, value]) => ({
    at,
    value,
    fitted: curve.evaluate(fitted, at),
  }));
  return {
    argument,
    value: curve.value,
    probability: coverage.probability,
    trials: count,
    points: places.map((at, i) => {
      valuesAt(first, at, values);
      return { at, linear: budgets[i]!, monteCarlo: monteCarloOf(prepared, values) };
    }),
    observed,
    ...(curve.parameters === undefined || observed.length === 0
      ? {}
      : { fit: fitOf(observed, curve.parameters, (at) => curve.evaluate(fitted, at), (to - from) * 1e-4) }),
  };
}

const lengthOf = (trials: MeasurandColumns): number => trials.reduce((sum, [column]) => sum + column!.length, 0);

/** Arguments at which a curve is evaluated, both ends of its range among them. */
function argumentsOf({ argument: { from, to } }: CalibrationCurve): number[] {
  return Array.from({ length: ARGUMENTS }, (_, i) =>
    i === ARGUMENTS - 1 ? to : from + ((to - from) * i) / (ARGUMENTS - 1),
  );
}

/**
 * The linear budget of a model's calibration curve at the arguments of `curveBand`, or at others.
 *
 * @returns `null` if the model declares no curve
 */
export function linearCurve(
  prepared: Prepared,
  places?: readonly number[],
): readonly { readonly at: number; readonly linear: CurvePoint["linear"] }[] | null {
  const curve = prepared.model.calibrationCurve;
  if (curve === undefined) return null;
  const at = places ?? argumentsOf(curve);
  return linearAt(prepared, curve, at).map((linear, i) => ({ at: at[i]!, linear }));
}

/** Residuals with their standard deviation, ν = n − p (JCGM 100, H.3.2). */
function fitOf(
  observed: CurveRecord["observed"],
  parameters: number,
  curve: (at: number) => number,
  step: number,
): NonNullable<CurveRecord["fit"]> {
  const residuals = observed.map(({ value, fitted }) => value - fitted);
  const degreesOfFreedom = observed.length - parameters;
  const squares = residuals.reduce((sum, residual) => sum + residual * residual, 0);
  return {
    residuals,
    degreesOfFreedom,
    residualDeviation: degreesOfFreedom > 0 ? Math.sqrt(squares / degreesOfFreedom) : null,
    largestInArgument: Math.max(
      ...observed.map(({ at }, i) => Math.abs((residuals[i]! * 2 * step) / (curve(at + step) - curve(at - step)))),
    ),
  };
}

/** The budgets of the curve's values at some arguments: the model, evaluated once for all of them, followed by the curve. */
function linearAt(
  { model, knowledge, correlations, coverage }: Prepared,
  curve: CalibrationCurve,
  places: readonly number[],
): readonly CurvePoint["linear"][] {
  const [only] = Object.keys(model.measurands);
  const named = places.map((at) => `curve at ${at}`);
  const values: Record<string, number> = Object.fromEntries(named.map((name) => [name, 0]));
  const composed: Model = {
    id: model.id,
    title: model.title,
    inputs: model.inputs,
    measurands: Object.fromEntries(named.map((name) => [name, curve.value])),
    evaluate: (x) => {
      const outputs: unknown = model.evaluate(x);
      const parameters = typeof outputs === "number" ? { [only!]: outputs } : (outputs as Record<string, number>);
      for (let i = 0; i < places.length; i++) values[named[i]!] = curve.evaluate(parameters, places[i]!);
      return values;
    },
  };
  const lines = Object.fromEntries(Object.entries(knowledge).map(([name, { budget }]) => [name, budget]));
  const budgets = linearBudget(composed, lines, correlations, coverage);
  return named.map((name) => {
    const { estimate, standardUncertainty, coverageFactor, interval } = budgets[name]!;
    return { estimate, standardUncertainty, coverageFactor, interval };
  });
}

/** Reorders `values`. */
function monteCarloOf({ source, coverage }: Prepared, values: Float64Array): CurvePoint["monteCarlo"] {
  const distributions = source.groups.flatMap((group) => group.distributions);
  const moments = momentsOf(values);
  return {
    estimate: distributions.every(({ mean }) => mean !== null) ? moments.mean : null,
    standardUncertainty: distributions.every(({ standardDeviation: s }) => s !== null && Number.isFinite(s))
      ? standardDeviation(moments)
      : null,
    interval:
      coverage.interval === "shortest"
        ? shortestInterval(sortedSample(values.sort()), coverage.probability)
        : // Two order statistics: no need to sort all.
          symmetricOf(values, coverage.probability),
  };
}

function symmetricOf(values: Float64Array, probability: number): readonly [low: number, high: number] {
  const [low, high] = symmetricRanks(values.length, probability);
  return [selectOfMany(values, low), selectOfMany(values, high)];
}
