import { en } from "../../present/messages/en/index.ts";
import type { CurvePoint, CurveRecord, Quantity, RunRecord } from "../../../engine/index.ts";
import { curvePicture } from "../draw/curve-picture.ts";
import type { DrawnPoint } from "../../present/pictures/curve.ts";
import { html, type Child } from "../draw/node.ts";
import {
  exponentOfThousands,
  fixed,
  overUnit,
  plain,
  probabilityText,
  unitWithPower,
  rangeWithUnit,
  significant,
  whole,
  withUnit,
} from "../../present/numbers.ts";
import { ENGLISH } from "../../present/statement.ts";
import { argumentText, curveRow, curveTable, placesOfCurve } from "../../present/tables/curve.ts";
import { numbersBehind } from "../draw/numbers-table.ts";
import { wideTable } from "../draw/table.ts";
import { readingLayer } from "../draw/reading-layer.ts";
import { swatch } from "../draw/swatch.ts";
import { choiceSwitch } from "../draw/switch.ts";
import { symbolNode } from "../draw/symbol.ts";
import { symbolText } from "../../present/symbol.ts";
import { unitsFor } from "../../present/units.ts";
import type { Panel, View } from "./panel.ts";

/** A band this small a part of the curve's rise is seen only as deviation from it. */
const INVISIBLE = 0.05;

const DRAWN = { curve: "curve", deviation: "deviation from it" } as const;
type Drawn = keyof typeof DRAWN;

/** The calibration curve that the measurands are parameters of, with its band (JCGM 100, H.3). */
export const curve: Panel = {
  id: "curve",
  title: en.sections.calibrationCurve,
  appliesTo: ({ calibrationCurve }) => calibrationCurve != null,
  render(element, record, _name, view) {
    const found = record.calibrationCurve!;
    const usual: Drawn = isSteep(found) ? "deviation" : "curve";
    const drawn: Drawn =
      view.reading.curve === "curve" || view.reading.curve === "deviation" ? view.reading.curve : usual;
    element.replaceChildren(
      html("p", { id: "curve-sentence" }, sentence(found)),
      html(
        "div",
        { class: "controls" },
        choiceSwitch(
          "drawn",
          "Drawn",
          (Object.keys(DRAWN) as Drawn[]).map((value) => ({ value, label: DRAWN[value] })),
          drawn,
          (value) => view.choose({ curve: value === usual ? null : value }, true),
        ),
      ),
      legend(found, record),
      picture(element, found, drawn, view),
      wideTable(curveTable(found, ENGLISH), "curve-table"),
      html(
        "p",
        { class: "note" },
        `Each interval holds at its argument by itself; it is no statement about the whole curve at once. Linear: the budget of the curve’s value there, which carries the correlation of the coefficients (JCGM 100, H.3.4). Monte Carlo: every trial’s own curve, ${whole(found.trials)} trials.`,
      ),
      numbers(element, found),
    );
  },
};

const widest = ({ points }: CurveRecord): number =>
  Math.max(
    ...points.map(({ linear, monteCarlo }) =>
      Math.max(linear.interval[1] - linear.interval[0], monteCarlo.interval[1] - monteCarlo.interval[0]),
    ),
  );

function isSteep(found: CurveRecord): boolean {
  const values = found.points.map(({ linear }) => linear.estimate);
  return widest(found) < INVISIBLE * (Math.max(...values) - Math.min(...values));
}

/** A unit in which distances of this size read well: one of the quantity's own, else with a power of ten before it. */
function unitForDistances(quantity: Quantity, size: number): { readonly factor: number; readonly unit: string } {
  const own = { factor: 1, unit: quantity.unit };
  const reads = ({ factor }: { readonly factor: number }): boolean => size * factor >= 0.1 && size * factor < 1000;
  if (size === 0) return own;
  const offered = unitsFor({ ...quantity, difference: true }).find(reads);
  if (offered !== undefined) return offered;
  const power = exponentOfThousands(size);
  return {
    factor: Number(`1e${-power}`),
    unit: unitWithPower(power, quantity.unit),
  };
}

function sentence(found: CurveRecord): Child {
  const { argument, value, points } = found;
  const sorted = points.toSorted((a, b) => a.linear.standardUncertainty - b.linear.standardUncertainty);
  const [least, greatest] = [sorted[0]!, sorted.at(-1)!];
  const { factor, unit } = unitForDistances(value, greatest.linear.standardUncertainty);
  const u = ({ linear }: CurvePoint): string => withUnit(significant(linear.standardUncertainty * factor, 2), unit);
  const text = argumentText(found, ENGLISH);
  const at = (point: CurvePoint): string => withUnit(text(point.at), argument.unit);
  return [
    symbolNode(value.symbol),
    ` (${value.meaning}) from `,
    symbolNode(argument.symbol),
    ` = ${rangeWithUnit(plain(points[0]!.at), plain(points.at(-1)!.at), argument.unit)}. Its standard uncertainty is least, ${u(least)}, at ${at(least)} and greatest, ${u(greatest)}, at ${at(greatest)}.`,
  ];
}

function legend({ observed, probability }: CurveRecord, { coverage }: RunRecord): HTMLElement {
  const kind = coverage.interval === "shortest" ? ", shortest" : "";
  return html(
    "p",
    { class: "key" },
    html("span", {}, swatch("monte-carlo"), `Monte Carlo, ${probabilityText(probability)} band${kind}, and mean`),
    html("span", {}, swatch("linear"), "linear band"),
    observed.length === 0
      ? null
      : html(
          "span",
          {},
          html("span", { class: "observed-key", "aria-hidden": "true" }, "○"),
          "points it was fitted to",
        ),
  );
}

function picture(element: HTMLElement, found: CurveRecord, drawn: Drawn, { width }: View): HTMLElement {
  const { argument, value, points, observed } = found;
  const deviation = drawn === "deviation";
  const reach = Math.max(widest(found) / 2, ...observed.map((point) => Math.abs(point.value - point.fitted)));
  const { factor, unit } = deviation ? unitForDistances(value, reach) : { factor: 1, unit: value.unit };
  const shown = points.map(({ at, linear, monteCarlo }): DrawnPoint => {
    const f = (y: number): number => (deviation ? (y - linear.estimate) * factor : y);
    return {
      at,
      linear: [f(linear.interval[0]), f(linear.estimate), f(linear.interval[1])],
      monteCarlo: [
        f(monteCarlo.interval[0]),
        monteCarlo.estimate === null ? null : f(monteCarlo.estimate),
        f(monteCarlo.interval[1]),
      ],
    };
  });
  const height = Math.round(Math.min(300, Math.max(190, 0.3 * width)));
  const from = plain(points[0]!.at);
  const to = withUnit(plain(points.at(-1)!.at), argument.unit);
  const {
    picture: image,
    x,
    top,
    bottom,
    mark,
  } = curvePicture({
    name: `${deviation ? "Bands about the calibration curve" : "The calibration curve with its bands"} from ${from} to ${to}, at ${probabilityText(found.probability)}.`,
    titles: [
      [{ symbol: argument.symbol }, overUnit("", argument.unit)],
      [deviation ? "deviation from the curve, Δ" : "", { symbol: value.symbol }, overUnit("", unit)],
    ],
    points: shown,
    observed: observed.map((point) => [point.at, deviation ? (point.value - point.fitted) * factor : point.value]),
    width,
    height,
  });
  const half = (points[1]!.at - points[0]!.at) / 2;
  return readingLayer(element, {
    id: "curve",
    picture: image,
    width,
    height: bottom + 46,
    part: [x(points[0]!.at - half), x(points.at(-1)!.at + half), top, bottom],
    steps: points.length,
    label: "Read the calibration curve argument by argument",
    hint: "Point at the curve, or reach it with Tab and use the arrow keys, to read it.",
    tell: (point) => tell(found, point),
    mark,
  });
}

/** A point in words: value and U by the budget, the interval of the trials, and what U is at the argument. */
function tell(found: CurveRecord, index: number): string {
  const { argument, value, points } = found;
  const point = points[index]!;
  const { at, linear, monteCarlo } = point;
  const places = placesOfCurve(found);
  const U = linear.coverageFactor * linear.standardUncertainty;
  const { factor, unit } = unitForDistances(value, U);
  const slope = slopeAt(points, index);
  const along =
    argument.unit === value.unit || slope === 0 || U === 0
      ? null
      : { ...unitForDistances(argument, Math.abs(U / slope)), size: Math.abs(U / slope) };
  const beside =
    along === null
      ? ""
      : `, as much as ${withUnit(significant(along.size * along.factor, 2), along.unit)} in ${symbolText(argument.symbol)}`;
  return (
    `At ${withUnit(argumentText(found, ENGLISH)(at), argument.unit)}: ${symbolText(value.symbol)} = ${withUnit(fixed(linear.estimate, places), value.unit)}, ` +
    `U = ${withUnit(significant(U * factor, 2), unit)}${beside} (linear, k = ${fixed(linear.coverageFactor, 2)}); ` +
    `Monte Carlo ${rangeWithUnit(fixed(monteCarlo.interval[0], places), fixed(monteCarlo.interval[1], places), value.unit)}`
  );
}

/** Slope of the curve at a point, from its neighbours. */
function slopeAt(points: readonly CurvePoint[], index: number): number {
  const [a, b] = [points[Math.max(0, index - 1)]!, points[Math.min(points.length - 1, index + 1)]!];
  return (b.linear.estimate - a.linear.estimate) / (b.at - a.at);
}

function numbers(element: HTMLElement, found: CurveRecord): HTMLElement {
  const { argument, value, points, probability } = found;
  const unit = value.unit;
  const places = placesOfCurve(found);
  const end = (y: number): string => fixed(y, places);
  return numbersBehind(
    element,
    "curve-numbers",
    `The curve at ${points.length} arguments, at ${probabilityText(probability)}`,
    [
      overUnit(symbolText(argument.symbol), argument.unit),
      overUnit(symbolText(value.symbol), unit),
      overUnit("linear u", unit),
      overUnit("linear low", unit),
      overUnit("linear high", unit),
      overUnit("Monte Carlo mean", unit),
      overUnit("Monte Carlo u", unit),
      overUnit("Monte Carlo low", unit),
      overUnit("Monte Carlo high", unit),
    ],
    () =>
      points.map((point) => {
        const { head, cells } = curveRow(found, point, ENGLISH);
        const [estimate, u, , uTrials] = cells as readonly [string, string, string, string];
        const { linear, monteCarlo } = point;
        return [
          String(head),
          estimate,
          u,
          end(linear.interval[0]),
          end(linear.interval[1]),
          monteCarlo.estimate === null ? en.none : end(monteCarlo.estimate),
          uTrials,
          end(monteCarlo.interval[0]),
          end(monteCarlo.interval[1]),
        ];
      }),
  );
}
