import { refuse, type Statement } from "../../../engine/index.ts";
import { daysBetween } from "../text/document.ts";
import { figure, millikelvin } from "../check.ts";
import { withMinus } from "../text/minus.ts";
import { straightLine } from "../survey/straight-line.ts";
import { limitsStatement } from "../survey/statement.ts";
import { neighbours, type Certificate } from "./certificate.ts";

/** A correction of one calibration at the requested temperature. */
export interface HistoryPoint {
  readonly calibrated: string;
  readonly correction: number;
}

/** Drift of a reference since its calibration, from its earlier calibrations. */
export type DriftEvaluation = {
  readonly history: readonly HistoryPoint[];
  readonly days: number;
  readonly reasoning: readonly string[];
} & (
  | {
      readonly method: "bounds";
      /** Largest change between successive calibrations, K. */
      readonly halfWidth: number;
      /** True if all changes, two or more, go the same way: the bound about 0 then leaves out what is expected. */
      readonly oneWay: boolean;
    }
  | {
      readonly method: "rate";
      /** K per day, from a straight line through the history. */
      readonly rate: number;
      /** Expected change of the correction since the calibration, K. */
      readonly change: number;
      /** Of the rate, K per day. */
      readonly rateStandardUncertainty: number;
      /** Of the corrected value, from the scatter about the line: of the last calibration, and of the rate. */
      readonly standardUncertainty: number;
      readonly degreesOfFreedom: number;
    }
);

/**
 * Drift of a reference at one temperature.
 *
 * - `bounds`: no more than the largest change between successive calibrations; rectangular, nothing corrected.
 * - `rate`: a straight line through all calibrations, continued from the last one; needs three or more.
 *
 * Continued from the last calibration y_n over d, the value is y_n + d·b. Its error is that of y_n about the line, ε_n, and
 * d times that of the rate, b = Σ(t_i − t̄)y_i/S: u² = s²·[1 + 2d(t_n − t̄)/S + d²/S] with S = Σ(t_i − t̄)² (JCGM 100, 5.1.2
 * and H.3; a new observation has the scatter s as well).
 *
 * @param on day of use, YYYY-MM-DD
 * @throws {InputError} too short a history, points that do not reach the temperature, or a day before the calibration
 */
export function evaluateDrift(
  certificate: Certificate,
  temperature: number,
  on: string,
  method: DriftEvaluation["method"],
): DriftEvaluation {
  const history = historyAt(certificate, temperature);
  const least = method === "bounds" ? 2 : 3;
  if (history.length < least)
    refuse("history", `${history.length - 1} earlier calibrations`, `at least ${least - 1} for the method ${method}`);
  const days = daysBetween(certificate.calibrated, on);
  if (days < 0) refuse("on", on, `a day no earlier than the calibration, ${certificate.calibrated}`);
  const changes = history.slice(1).map(({ correction }, i) => correction - history[i]!.correction);
  const list = `corrections at ${withMinus(String(temperature))} °C: ${history.map(({ calibrated, correction }) => `${calibrated} ${millikelvin(correction)}`).join(", ")}`;
  if (method === "bounds") {
    const halfWidth = Math.max(...changes.map(Math.abs));
    const longest = Math.max(
      ...history.slice(1).map(({ calibrated }, i) => daysBetween(history[i]!.calibrated, calibrated)),
    );
    const late =
      days > longest
        ? [
            `${days} days since the calibration are more than any interval of the history (${longest} days): the bound may be too small`,
          ]
        : [];
    const oneWay = isOneWay(changes);
    return {
      method,
      history,
      days,
      halfWidth,
      oneWay,
      reasoning: [
        list,
        `the largest change from one calibration to the next, ${millikelvin(halfWidth)}, bounds the drift either way`,
        ...(oneWay
          ? [
              `Warning: all ${changes.length} changes go the same way, so that a drift of ${millikelvin(changes.reduce((sum, change) => sum + change, 0) / changes.length)} an interval is to be expected, which limits about 0 do not correct: take the method rate`,
            ]
          : []),
        ...late,
      ],
    };
  }
  const times = history.map(({ calibrated }) => daysBetween(history[0]!.calibrated, calibrated));
  const line = straightLine(
    times,
    history.map(({ correction }) => correction),
  );
  const mean = times.reduce((sum, time) => sum + time, 0) / times.length;
  const spread = times.reduce((sum, time) => sum + (time - mean) * (time - mean), 0);
  const standardUncertainty =
    line.residualDeviation * Math.sqrt(1 + (2 * days * (times.at(-1)! - mean) + days * days) / spread);
  return {
    method,
    history,
    days,
    rate: line.slope,
    change: line.slope * days,
    rateStandardUncertainty: line.slopeStandardUncertainty,
    standardUncertainty,
    degreesOfFreedom: history.length - 2,
    reasoning: [
      list,
      `straight line through ${history.length} calibrations: ${millikelvin(line.slope * 365.25)} a year, so ${millikelvin(line.slope * days)} in the ${days} days since the last`,
      `u ${millikelvin(standardUncertainty)} with ${figure(history.length - 2)} degrees of freedom: the scatter of a single calibration about the line, ${millikelvin(line.residualDeviation)}, and that of the rate; with few calibrations the line may fit by chance`,
    ],
  };
}

const isOneWay = (changes: readonly number[]): boolean =>
  changes.length >= 2 && (changes.every((change) => change > 0) || changes.every((change) => change < 0));

function historyAt(certificate: Certificate, temperature: number): HistoryPoint[] {
  const all = [
    ...(certificate.history ?? []).map(({ calibrated, points }) => ({
      calibrated,
      points: points.map((point) => ({ ...point, standardUncertainty: 1 })),
    })),
    { calibrated: certificate.calibrated, points: certificate.points },
  ].sort((a, b) => daysBetween(b.calibrated, a.calibrated));
  all.forEach(({ calibrated }, i) => {
    if (i > 0 && calibrated === all[i - 1]!.calibrated) refuse("history", calibrated, "calibrations on different days");
  });
  return all.map(({ calibrated, points }) => {
    const { lower, upper, weight } = neighbours({ ...certificate, points }, temperature);
    return { calibrated, correction: (1 - weight) * lower.correction + weight * upper.correction };
  });
}

/** Drift as an input quantity (`referenceDrift` of `bath-comparison`). @throws {InputError} a drift of exactly 0 */
export function driftStatement(certificate: Certificate, drift: DriftEvaluation): Statement {
  const source =
    `history of ${certificate.thermometer}: ${drift.history.length} calibrations since ${drift.history[0]!.calibrated}, ` +
    (drift.method === "bounds"
      ? `largest change between two${drift.oneWay ? ", all of them one way and not corrected" : ""}`
      : `fitted rate over ${drift.days} days`);
  if (drift.method === "bounds") return limitsStatement("rectangular", 0, drift.halfWidth, source, "history");
  if (!(drift.standardUncertainty > 0)) {
    refuse("history", drift.standardUncertainty, "a history that scatters about its line; else take the method bounds");
  }
  const { change: estimate, standardUncertainty, degreesOfFreedom } = drift;
  return { distribution: "t", estimate, standardUncertainty, degreesOfFreedom, source };
}
