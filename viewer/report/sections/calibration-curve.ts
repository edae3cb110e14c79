import type { CurveRecord } from "../../../engine/index.ts";
import { WIDE, sceneMarkup } from "../draw/scene.ts";
import { curveScene } from "../../present/pictures/curve.ts";
import { figureMarkup } from "../figure.ts";
import { fillText } from "../../present/fill.ts";
import { fill, html, type Markup } from "../markup.ts";
import { dividedBy, exponentOfThousands, unitWithPower } from "../../present/numbers.ts";
import { fromRecord, type Report, type Section } from "../report.ts";
import { symbolMarkup } from "../symbol.ts";
import { symbolText } from "../../present/symbol.ts";
import { curveTable } from "../../present/tables/curve.ts";
import { presentedTable } from "../table.ts";

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
      ${bands(report, curve)}${presentedTable(report, curveTable(curve, report))}`;
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
