import { speech, messages } from "../language.ts";
import type { CurvePoint, CurveRecord, Quantity, RunRecord } from "../../../engine/index.ts";
import { curvePicture } from "../draw/curve-picture.ts";
import type { DrawnPoint } from "../../present/pictures/curve.ts";
import { html, type Child } from "../draw/node.ts";
import { exponentOfThousands, overUnit, unitWithPower, withUnit } from "../../present/numbers.ts";
import { fixed, plain, probabilityText, rangeWithUnit, significant, whole } from "../numbers.ts";
import { fillText } from "../../present/fill.ts";
import { labelOf } from "../../present/pictures/label.ts";
import { argumentText, curveNumbers, curveTable, placesOfCurve } from "../../present/tables/curve.ts";
import { numbersBehind } from "../draw/numbers-table.ts";
import { wideTable } from "../draw/table.ts";
import { readingLayer } from "../draw/reading-layer.ts";
import { swatch } from "../draw/swatch.ts";
import { choiceSwitch } from "../draw/switch.ts";
import { labelNodes } from "../draw/symbol.ts";
import { symbolText } from "../../present/symbol.ts";
import { unitsFor } from "../../present/units.ts";
import type { Panel, View } from "./panel.ts";

/** A band this small a part of the curve's rise is seen only as deviation from it. */
const INVISIBLE = 0.05;

const words = messages.curvePanel;
const DRAWN = ["curve", "deviation"] as const;
type Drawn = (typeof DRAWN)[number];

/** The calibration curve that the measurands are parameters of, with its band (JCGM 100, H.3). */
export const curve: Panel = {
  id: "curve",
  title: messages.sections.calibrationCurve,
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
          words.drawn,
          DRAWN.map((value) => ({ value, label: words[value] })),
          drawn,
          (value) => view.choose({ curve: value === usual ? null : value }, true),
        ),
      ),
      legend(found, record),
      picture(element, found, drawn, view),
      wideTable(curveTable(found, speech), "curve-table"),
      html(
        "p",
        { class: "note" },
        labelNodes(
          labelOf(messages.calibrationCurve.intro, {
            y: { symbol: found.value.symbol },
            meaning: found.value.meaning,
            x: { symbol: found.argument.symbol },
            trials: whole(found.trials),
          }),
        ),
      ),
      numbersBehind(element, "curve-numbers", () => curveNumbers(found, speech)),
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
  const text = argumentText(found, speech);
  const at = (point: CurvePoint): string => withUnit(text(point.at), argument.unit);
  return labelNodes(
    labelOf(words.sentence, {
      y: { symbol: value.symbol },
      meaning: value.meaning,
      x: { symbol: argument.symbol },
      range: rangeWithUnit(plain(points[0]!.at), plain(points.at(-1)!.at), argument.unit),
      least: u(least),
      leastAt: at(least),
      greatest: u(greatest),
      greatestAt: at(greatest),
    }),
  );
}

function legend({ observed, probability }: CurveRecord, { coverage }: RunRecord): HTMLElement {
  const p = probabilityText(probability);
  const band =
    coverage.interval === "shortest"
      ? fillText(words.bandOf, { p, kind: messages.result.shortest })
      : fillText(words.band, { p });
  return html(
    "p",
    { class: "key" },
    html("span", {}, swatch("monte-carlo"), band),
    html("span", {}, swatch("linear"), words.linearBand),
    observed.length === 0
      ? null
      : html("span", {}, html("span", { class: "observed-key", "aria-hidden": "true" }, "○"), words.observed),
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
    name: fillText(deviation ? words.deviationName : words.curveName, {
      from,
      to,
      p: probabilityText(found.probability),
    }),
    titles: [
      [{ symbol: argument.symbol }, overUnit("", argument.unit)],
      [deviation ? words.deviationAxis : "", { symbol: value.symbol }, overUnit("", unit)],
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
    label: words.read,
    hint: words.hint,
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
  return fillText(words.point, {
    at: withUnit(argumentText(found, speech)(at), argument.unit),
    y: symbolText(value.symbol),
    value: withUnit(fixed(linear.estimate, places), value.unit),
    U: withUnit(significant(U * factor, 2), unit),
    along:
      along === null
        ? ""
        : fillText(words.along, {
            size: withUnit(significant(along.size * along.factor, 2), along.unit),
            x: symbolText(argument.symbol),
          }),
    k: fixed(linear.coverageFactor, 2),
    interval: rangeWithUnit(fixed(monteCarlo.interval[0], places), fixed(monteCarlo.interval[1], places), value.unit),
  });
}

/** Slope of the curve at a point, from its neighbours. */
function slopeAt(points: readonly CurvePoint[], index: number): number {
  const [a, b] = [points[Math.max(0, index - 1)]!, points[Math.min(points.length - 1, index + 1)]!];
  return (b.linear.estimate - a.linear.estimate) / (b.at - a.at);
}
