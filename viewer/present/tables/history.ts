import type { HistoryEvaluation, QuantityHistory } from "../../../models/index.ts";
import { controlLimits } from "../control-limits.ts";
import { fillText } from "../fill.ts";
import { decimalsFor, overUnit } from "../numbers.ts";
import { labelOf } from "../pictures/label.ts";
import { linesScene } from "../pictures/lines.ts";
import type { Scene } from "../pictures/scene.ts";
import { trendScene } from "../pictures/trend.ts";
import type { Speech } from "../statement.ts";
import { figureCell, type Table } from "./table.ts";

const U = { symbol: "U" };

/** Two digits of the smallest uncertainty of a quantity. */
const placesOf = ({ entries, drift, perYear }: QuantityHistory): number =>
  Math.max(
    0,
    decimalsFor(
      Math.min(
        ...entries.map(({ standardUncertainty }) => standardUncertainty),
        ...[drift.standardUncertainty, perYear.standardUncertainty].filter((u) => u > 0),
      ),
      2,
    ),
  );

/** Drift, prediction and due days of every quantity. */
export function historyTable(
  { quantities, use, probability }: HistoryEvaluation,
  { messages, numbers }: Speech,
): Table {
  const words = messages.history;
  const number = (head: string) => ({ head: labelOf(head, { U }), kind: "number" }) as const;
  return {
    caption: fillText(words.summary, { use, p: numbers.probability(probability) }),
    columns: [
      { head: words.quantity, kind: "head" },
      number(words.perYear),
      number(words.perYearU),
      number(words.drift),
      number(words.driftU),
      number(words.prediction),
      number(words.predictionU),
      { head: words.by, kind: "text" },
    ],
    rows: quantities.map((quantity) => {
      const { name, unit, perYear, drift, prediction, coverageFactor: k, due } = quantity;
      const places = placesOf(quantity);
      const fixed = (value: number) => figureCell(numbers.fixed(value, places), value);
      return {
        head: overUnit(name, unit),
        cells: [
          fixed(perYear.value),
          fixed(k * perYear.standardUncertainty),
          fixed(drift.value),
          fixed(k * drift.standardUncertainty),
          fixed(prediction.value),
          fixed(prediction.expanded),
          due === null ? words.noLimit : due.never ? messages.none : due.by,
        ],
      };
    }),
  };
}

/** Every calibration of a quantity, beside the line and beside what the earlier ones predicted. */
export function historyEntriesTable(quantity: QuantityHistory, { messages, numbers }: Speech): Table {
  const words = messages.history;
  const places = placesOf(quantity);
  return {
    caption: fillText(words.entries, { name: quantity.name, unit: quantity.unit }),
    columns: [
      { head: words.date, kind: "head" },
      { head: words.value, kind: "number" },
      { head: labelOf(words.expanded, { U }), kind: "number" },
      { head: words.residual, kind: "number" },
      { head: words.surprise, kind: "number" },
      { head: words.entryVerdict, kind: "text" },
    ],
    rows: quantity.entries.map(({ date, value, expanded, residual, surprise }) => ({
      head: date,
      cells: [
        figureCell(numbers.fixed(value, places), value),
        figureCell(numbers.fixed(expanded, places), expanded),
        figureCell(numbers.fixed(residual, places), residual),
        surprise === null ? messages.none : figureCell(numbers.fixed(surprise, 2), surprise),
        surprise === null ? words.first : Math.abs(surprise) <= 1 ? words.within : words.beyond,
      ],
    })),
  };
}

/** What a study can take: the value on the day of use, or the drift beside the last certificate. */
export function historyStatementsTable(quantity: QuantityHistory, { messages, numbers }: Speech): Table {
  const words = messages.history;
  const { prediction, drift, line, unit } = quantity;
  const places = placesOf(quantity) + 1;
  const kind = line.excess > 0 ? fillText(words.t, { freedom: numbers.whole(line.degreesOfFreedom) }) : words.normal;
  const row = (head: string, value: number, u: number, correlation: string) => ({
    head,
    cells: [
      figureCell(numbers.fixed(value, places), value),
      figureCell(numbers.fixed(u, places), u),
      u === 0 ? words.constant : kind,
      correlation,
    ],
  });
  return {
    caption: words.statements,
    columns: [
      { head: words.statementOf, kind: "head" },
      { head: fillText(words.estimate, { unit }), kind: "number" },
      { head: labelOf(words.standard, { u: { symbol: "u" }, unit }), kind: "number" },
      { head: words.distribution, kind: "text" },
      { head: words.correlation, kind: "text" },
    ],
    rows: [
      row(words.instead, prediction.value, prediction.standardUncertainty, messages.none),
      row(words.beside, drift.value, drift.standardUncertainty, numbers.fixed(drift.correlation, 2)),
    ],
  };
}

/** What the history of a quantity says, as sentences. */
export function historySentences(quantity: QuantityHistory, { messages, numbers }: Speech): string[] {
  const words = messages.history;
  const { name, unit, line, perYear, due, limit, coverageFactor } = quantity;
  const test = {
    name,
    unit,
    chi: numbers.significant(line.chiSquare, 4),
    freedom: numbers.whole(line.degreesOfFreedom),
    p: numbers.significant(line.probability ?? 1, 2),
    excess: numbers.significant(line.excess, 2),
    k: numbers.fixed(coverageFactor, 2),
  };
  const said = [
    `${fillText(line.probability === null ? words.two : line.excess > 0 ? words.scattered : words.consistent, test)} ${
      perYear.significant ? words.significant : words.insignificant
    }`,
  ];
  if (due === null || limit === null) return said;
  const bound = { name, unit, limit: numbers.plain(limit), by: due.by };
  const { expected, latest } = due;
  return [
    ...said,
    due.never
      ? fillText(words.never, bound)
      : [
          fillText(words.due, bound),
          ...(expected === null
            ? []
            : [
                latest === null
                  ? fillText(words.dueOnly, { expected })
                  : fillText(words.dueBetween, { expected, latest }),
              ]),
        ].join(" "),
  ];
}

/** Days of a year, as the axis counts them. */
const DAY = 86_400_000;
const yearOf = (at: number): number => {
  const date = new Date(at);
  const start = Date.UTC(date.getUTCFullYear(), 0, 1);
  return date.getUTCFullYear() + (at - start) / (Date.UTC(date.getUTCFullYear() + 1, 0, 1) - start);
};
/** Places along the line and its band. */
const STEPS = 40;

/** Calibrations over the years with the line, its uncertainty and the day of use. */
export function historyScene(
  quantity: QuantityHistory,
  use: string,
  size: { readonly width: number; readonly height: number },
  { messages, numbers }: Speech,
): Scene {
  const { entries, line, coverageFactor: k, name, unit } = quantity;
  const start = Date.parse(entries[0]!.date);
  const last = (Date.parse(use) - start) / DAY;
  const along = Array.from({ length: STEPS + 1 }, (_, i) => (last * i) / STEPS).map((day) => {
    const [[a, ab], [, b]] = line.covariance as readonly [readonly [number, number], readonly [number, number]];
    const u = Math.sqrt(Math.max(0, a + 2 * day * ab + day * day * b) + line.excess * line.excess);
    return { x: yearOf(start + day * DAY), y: line.value + line.slope * day, reach: k * u };
  });
  const through = (of: (at: (typeof along)[number]) => number) => along.map((at) => [at.x, of(at)] as const);
  return linesScene(
    {
      name: fillText(messages.history.picture, { name }),
      titles: [messages.history.year, overUnit(name, unit)],
      lines: [
        { label: null, points: through(({ y }) => y), look: "linear-line", marked: false },
        { label: null, points: through(({ y, reach }) => y - reach), look: "limit", marked: false },
        { label: null, points: through(({ y, reach }) => y + reach), look: "limit", marked: false },
        {
          label: null,
          points: entries.map(({ date, value }) => [yearOf(Date.parse(date)), value] as const),
          look: "trials-line",
          marked: true,
          apart: true,
        },
      ],
      ...size,
    },
    numbers,
  );
}

/** Control chart of a quantity's calibrations. */
export const historyChart = (
  { name, unit, entries }: QuantityHistory,
  width: number,
  { messages, numbers }: Speech,
): Scene =>
  trendScene(
    {
      name: fillText(messages.history.chart, { name }),
      title: overUnit(fillText(messages.history.lessLine, { name }), unit),
      points: entries.map(({ date, residual, expanded }) => ({
        at: Date.parse(date),
        value: residual,
        half: expanded,
      })),
      limits: controlLimits(entries.map(({ residual }) => residual)),
      width,
    },
    numbers,
  );
