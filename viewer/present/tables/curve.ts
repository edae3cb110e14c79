import type { CurvePoint, CurveRecord } from "../../../engine/index.ts";
import { fillText } from "../fill.ts";
import { decimalsFor, overUnit } from "../numbers.ts";
import { labelOf } from "../pictures/label.ts";
import type { Label } from "../pictures/scene.ts";
import type { Speech } from "../statement.ts";
import { figureCell, type Column, type Row, type Table } from "./table.ts";

/** Every how many of the record's arguments stand in the table. */
const STEP = 5;

/** Decimal places of values and endpoints: two significant digits of the smallest uncertainty. */
export function placesOfCurve({ points }: CurveRecord): number {
  const sizes = points
    .map(({ linear, monteCarlo }) => linear.standardUncertainty || (monteCarlo.standardUncertainty ?? 0))
    .filter((u) => u > 0);
  return sizes.length === 0 ? 6 : Math.max(0, decimalsFor(Math.min(...sizes), 2));
}

/** An argument without the rounding of its step, at places that all of them share. */
export function argumentText({ points }: CurveRecord, { numbers }: Speech): (at: number) => string {
  const bare = points.map(({ at }) => String(Number(at.toPrecision(10))));
  const places = Math.max(0, ...bare.map((text) => (text.includes("e") ? 0 : (text.split(".")[1] ?? "").length)));
  const power = bare.some((text) => text.includes("e"));
  return (at) => (power ? numbers.significant(at, 6) : numbers.fixed(at, places));
}

/** One argument of a curve: its value, u and interval by each method. */
export function curveRow(
  found: CurveRecord,
  { at, linear, monteCarlo }: CurvePoint,
  speech: Speech,
): Row & { readonly cells: readonly string[] } {
  const { messages, numbers } = speech;
  const places = placesOfCurve(found);
  const end = (value: number): string => numbers.fixed(value, places);
  const u = (size: number | null): string => (size === null ? messages.none : numbers.fixed(size, places + 1));
  const interval = ([low, high]: readonly [number, number]): string => numbers.interval([end(low), end(high)]);
  return {
    head: argumentText(found, speech)(at),
    cells: [
      end(linear.estimate),
      u(linear.standardUncertainty),
      interval(linear.interval),
      u(monteCarlo.standardUncertainty),
      interval(monteCarlo.interval),
    ],
  };
}

/** The curve by both methods at some of its arguments. */
export function curveTable(found: CurveRecord, speech: Speech): Table {
  const words = speech.messages.calibrationCurve;
  const { argument, value, points, probability } = found;
  const over = (symbol: string, unit: string): Label => [{ symbol }, overUnit("", unit)];
  const u = { u: { symbol: "u" }, unit: overUnit("", value.unit) };
  return {
    caption: labelOf(words.caption, { p: speech.numbers.probability(probability) }),
    columns: [
      { head: over(argument.symbol, argument.unit), kind: "head" },
      { head: over(value.symbol, value.unit), kind: "number" },
      { head: labelOf(words.linearUncertainty, u), kind: "number", method: "linear" },
      { head: words.linearInterval, kind: "text", method: "linear" },
      { head: labelOf(words.monteCarloUncertainty, u), kind: "number", method: "monte-carlo" },
      { head: words.monteCarloInterval, kind: "text", method: "monte-carlo" },
    ],
    rows: points.filter((_, i) => i % STEP === 0).map((point) => curveRow(found, point, speech)),
  };
}

/** The curve at every argument, each endpoint in a column of its own: what the picture draws. */
export function curveNumbers(found: CurveRecord, speech: Speech): Table {
  const { messages, numbers } = speech;
  const { calibrationCurve: words, curvePanel } = messages;
  const { argument, value, points, probability } = found;
  const places = placesOfCurve(found);
  const end = (y: number): string => numbers.fixed(y, places);
  const u = { u: { symbol: "u" }, unit: overUnit("", value.unit) };
  const over = (text: string): Column => ({ head: overUnit(text, value.unit), kind: "number" });
  return {
    caption: fillText(curvePanel.numbers, {
      count: numbers.whole(points.length),
      p: numbers.probability(probability),
    }),
    columns: [
      { head: [{ symbol: argument.symbol }, overUnit("", argument.unit)], kind: "head" },
      { head: [{ symbol: value.symbol }, overUnit("", value.unit)], kind: "number" },
      { head: labelOf(words.linearUncertainty, u), kind: "number" },
      over(curvePanel.linearLow),
      over(curvePanel.linearHigh),
      over(curvePanel.trialsMean),
      { head: labelOf(words.monteCarloUncertainty, u), kind: "number" },
      over(curvePanel.trialsLow),
      over(curvePanel.trialsHigh),
    ],
    rows: points.map((point): Row => {
      const { head, cells } = curveRow(found, point, speech);
      const [estimate, uncertainty, , uncertaintyOfTrials] = cells as readonly [string, string, string, string];
      const { at, linear, monteCarlo } = point;
      return {
        head,
        value: at,
        cells: [
          figureCell(estimate, linear.estimate),
          figureCell(uncertainty, linear.standardUncertainty),
          figureCell(end(linear.interval[0]), linear.interval[0]),
          figureCell(end(linear.interval[1]), linear.interval[1]),
          figureCell(monteCarlo.estimate === null ? messages.none : end(monteCarlo.estimate), monteCarlo.estimate),
          figureCell(uncertaintyOfTrials, monteCarlo.standardUncertainty),
          figureCell(end(monteCarlo.interval[0]), monteCarlo.interval[0]),
          figureCell(end(monteCarlo.interval[1]), monteCarlo.interval[1]),
        ],
      };
    }),
  };
}
