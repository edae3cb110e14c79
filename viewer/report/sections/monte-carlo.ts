import type { Interval } from "../../../engine/index.ts";
import { sceneMarkup, WIDE } from "../draw/scene.ts";
import { densityScene } from "../../present/pictures/density.ts";
import { binsWithin } from "../../present/pictures/histogram.ts";
import type { Label } from "../../present/pictures/scene.ts";
import { fillText } from "../../present/fill.ts";
import { fill, html, type Markup } from "../markup.ts";
import { dividedBy, overUnit, quotientUnit, withUnit } from "../../present/numbers.ts";
import type { Readable } from "../../present/readable.ts";
import { comparedInterval, eachMeasurand, type Report, type Section } from "../report.ts";
import { symbolMarkup } from "../symbol.ts";
import { symbolText } from "../../present/symbol.ts";
import { resultTable } from "../../present/tables/results.ts";
import { presentedTable } from "../table.ts";
import { figureMarkup } from "../figure.ts";

/** The Monte Carlo figures beside the linear ones, with their standard errors, and the picture of both. */
export const monteCarlo: Section = {
  id: "monteCarlo",
  render(report) {
    const { record, messages, numbers } = report;
    return html`<p>${fill(messages.monteCarlo.intro, { trials: numbers.whole(record.trials.count) })}</p>
      ${eachMeasurand(report, (measurand) => html`${presentedTable(report, resultTable(measurand, record, report))}${density(report, measurand)}`)}`;
  },
};

function density(report: Report, measurand: Readable): Markup {
  const { record, messages, numbers } = report;
  const words = messages.monteCarlo;
  const { symbol, unit, linear, monteCarlo: found, validation, places } = measurand;
  const interval = comparedInterval(report, measurand);
  const at = (value: number): string => numbers.fixed(value, places);
  const ends = ([low, high]: readonly [number, number]): string => numbers.interval([at(low), at(high)]);
  const range = shownRange(measurand, interval);
  const histogram = binsWithin(found.histogram, range);
  const outside = histogram.below + histogram.above;
  const difference = (name: string, value: number): Label => [{ symbol: name }, ` = ${withUnit(at(value), unit)}`];
  const { scene } = densityScene(
    {
      name: fillText(words.pictureName, {
        y: symbolText(symbol),
        linear: ends(linear.interval),
        monteCarlo: ends(interval),
        unit,
      }),
      titles: [[{ symbol }, dividedBy(unit)], overUnit(words.density, quotientUnit("1", unit))],
      histogram,
      trials: found.trials,
      curve: linear.curve,
      range,
      lanes: [
        {
          method: "linear",
          label: [`${words.laneLinear}, `, { symbol }, " ± ", { symbol: "U" }],
          interval: linear.interval,
          estimate: linear.estimate,
        },
        {
          method: "monte-carlo",
          label: fillText(words.laneMonteCarlo, { kind: messages.result[record.coverage.interval] }),
          interval,
          estimate: found.estimate,
        },
      ],
      differences: [difference("d_low", validation.dLow), difference("d_high", validation.dHigh)],
      width: WIDE,
      height: PLOT,
    },
    numbers,
  );
  return figureMarkup(
    report,
    sceneMarkup(scene),
    html`${fill(words.pictureCaption, { y: symbolMarkup(symbol), p: numbers.probability(record.coverage.probability) })}${
      outside === 0 ? null : fillText(words.outside, { count: numbers.whole(outside) })
    }`,
  );
}

/** Height of the density's plot. */
const PLOT = 210;

/** Both intervals with two fifths of their length either side, which leaves room for d_low and d_high. */
function shownRange({ monteCarlo: { histogram }, linear }: Readable, interval: Interval): Interval {
  const low = Math.min(interval[0], linear.interval[0]);
  const high = Math.max(interval[1], linear.interval[1]);
  const margin = 0.4 * (high - low) || histogram.width;
  return [low - margin, high + margin];
}
