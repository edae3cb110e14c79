import type { CurvePoint, CurveRecord } from "../../../engine/index.ts";
import { WIDE, sceneMarkup } from "../draw/scene.ts";
import { curveScene } from "../../present/pictures/curve.ts";
import { figureMarkup } from "../figure.ts";
import { fill, fillText, html, type Child, type Markup } from "../markup.ts";
import { decimalsFor, dividedBy, exponentOfThousands, unitWithPower } from "../../present/numbers.ts";
import { fromRecord, letter, type Report, type Section } from "../report.ts";
import { symbolMarkup } from "../symbol.ts";
import { symbolText } from "../../present/symbol.ts";
import { tableMarkup } from "../table.ts";

/** Every how many of the record's arguments stand in the table. */
const STEP = 5;
const BEGINS_WITH_ZEROS = 0.1;

/** The calibration curve that the measurands are parameters of (JCGM 100, H.3). */
export const calibrationCurve: Section = {
  id: "calibrationCurve",
  render(report) {
    const { messages, numbers, record } = report;
    // A record filed before a model could declare a curve has no such field.
    const curve = record.calibrationCurve ?? null;
    if (curve === null) return null;
    const { value, argument, trials } = curve;
    return html`<p>
        ${fill(messages.calibrationCurve.intro, {
          y: symbolMarkup(value.symbol),
          meaning: fromRecord(report, value.meaning),
          x: symbolMarkup(argument.symbol),
          trials: numbers.whole(trials),
        })}
      </p>
      ${bands(report, curve)}${table(report, curve)}`;
  },
};

function bands(report: Report, { points, observed, argument, value, probability }: CurveRecord): Markup {
  const { messages, numbers } = report;
  const words = messages.calibrationCurve;
  const reach = Math.max(
    ...points.flatMap(({ linear, monteCarlo }) =>
      [...linear.interval, ...monteCarlo.interval].map((end) => Math.abs(end - linear.estimate)),
    ),
    ...observed.map((point) => Math.abs(point.value - point.fitted)),
  );
  const power = reach > 0 && reach < BEGINS_WITH_ZEROS ? exponentOfThousands(reach) : 0;
  const scale = Number(`1e${-power}`);
  const unit = unitWithPower(power, value.unit);
  const about = (middle: number, end: number): number => (end - middle) * scale;
  const { scene } = curveScene(
    {
      name: fillText(words.pictureName, { y: symbolText(value.symbol) }),
      titles: [
        [{ symbol: argument.symbol }, dividedBy(argument.unit)],
        ["Δ", { symbol: value.symbol }, dividedBy(unit)],
      ],
      points: points.map(({ at, linear: { estimate, interval }, monteCarlo }) => ({
        at,
        linear: [about(estimate, interval[0]), 0, about(estimate, interval[1])],
        monteCarlo: [
          about(estimate, monteCarlo.interval[0]),
          monteCarlo.estimate === null ? null : about(estimate, monteCarlo.estimate),
          about(estimate, monteCarlo.interval[1]),
        ],
      })),
      observed: observed.map((point) => [point.at, about(point.fitted, point.value)]),
      width: WIDE,
      height: 180,
    },
    numbers,
  );
  return figureMarkup(
    report,
    sceneMarkup(scene),
    fill(words.pictureCaption, {
      y: symbolMarkup(value.symbol),
      p: numbers.probability(probability),
      observed: observed.length === 0 ? "" : words.observed,
    }),
  );
}

function table({ messages, numbers }: Report, { points, argument, value, probability }: CurveRecord): Markup {
  const words = messages.calibrationCurve;
  const sizes = points
    .flatMap(({ linear, monteCarlo }) => [linear.standardUncertainty, monteCarlo.standardUncertainty ?? 0])
    .filter((u) => u > 0);
  const places = sizes.length === 0 ? 6 : Math.max(0, decimalsFor(Math.min(...sizes), 2));
  const u = (size: number | null): string => (size === null ? messages.none : numbers.fixed(size, places + 1));
  const interval = ([low, high]: readonly [number, number]): string =>
    numbers.interval([numbers.fixed(low, places), numbers.fixed(high, places)]);
  return tableMarkup(
    { messages, decimalSign: numbers.decimalSign },
    {
      caption: fillText(words.caption, { p: numbers.probability(probability) }),
      columns: [
        { head: html`${symbolMarkup(argument.symbol)}${dividedBy(argument.unit)}`, kind: "number" },
        { head: html`${symbolMarkup(value.symbol)}${dividedBy(value.unit)}`, kind: "number" },
        { head: fill(words.linearUncertainty, { u: letter("u"), unit: dividedBy(value.unit) }), kind: "number" },
        { head: words.linearInterval, kind: "text" },
        { head: fill(words.monteCarloUncertainty, { u: letter("u"), unit: dividedBy(value.unit) }), kind: "number" },
        { head: words.monteCarloInterval, kind: "text" },
      ],
      // Without the rounding of the step.
      rows: points
        .filter((_, i) => i % STEP === 0)
        .map(({ at, linear, monteCarlo }: CurvePoint): Child[] => [
          numbers.plain(Number(at.toPrecision(10))),
          numbers.fixed(linear.estimate, places),
          u(linear.standardUncertainty),
          interval(linear.interval),
          u(monteCarlo.standardUncertainty),
          interval(monteCarlo.interval),
        ]),
    },
  );
}
