import { fillText } from "../../present/fill.ts";
import { dividedBy, overUnit, quotientUnit } from "../../present/numbers.ts";
import { threeDensitiesScene } from "../../present/pictures/three-densities.ts";
import type { Readable } from "../../present/readable.ts";
import { symbolText } from "../../present/symbol.ts";
import { linearisedTable, type LinearisedDistribution } from "../../present/tables/linearised.ts";
import { sceneMarkup, WIDE } from "../draw/scene.ts";
import { figureMarkup } from "../figure.ts";
import { fill, html, type Markup } from "../markup.ts";
import { comparedInterval, eachMeasurand, spoken, type Report, type Section } from "../report.ts";
import { symbolMarkup } from "../symbol.ts";
import { presentedTable } from "../table.ts";

/** Height of the plot. */
const PLOT = 170;

/** The linearised model with the stated distributions beside the other two results: its factor k, a table and a picture. */
export const linearised: Section = {
  id: "linearised",
  render(report) {
    const content = eachMeasurand(report, (measurand, name) =>
      measurand.linearised === undefined
        ? null
        : html`<p>${spoken(report, report.sentences.measurands[name]!.linearised)}</p>
            ${measurand.linearised.kind === "distribution" ? withFigures(report, measurand, measurand.linearised) : null}`,
    );
    return content === null
      ? null
      : html`<p>${report.messages.linearised.intro}</p>
          ${content}`;
  },
};

function withFigures(report: Report, measurand: Readable, found: LinearisedDistribution): Markup {
  const { record, messages, numbers } = report;
  const words = messages.linearised;
  const { symbol, unit, linear, monteCarlo, places } = measurand;
  const y = symbolMarkup(symbol);
  const kind = record.coverage.interval;
  const p = numbers.probability(record.coverage.probability);
  const table = presentedTable(report, linearisedTable(measurand, found, record, report));
  if (found.curve.length === 0) return table;
  const interval = comparedInterval(report, measurand);
  const ends = ([low, high]: readonly [number, number]): string =>
    numbers.interval([numbers.fixed(low, places), numbers.fixed(high, places)]);
  const scene = threeDensitiesScene(
    {
      name: fillText(words.pictureName, {
        y: symbolText(symbol),
        p,
        linear: ends(linear.interval),
        linearised: ends(found.intervals[kind]),
        monteCarlo: ends(interval),
        unit,
      }),
      titles: [[{ symbol }, dividedBy(unit)], overUnit(messages.monteCarlo.density, quotientUnit("1", unit))],
      linear: {
        label: `${words.laneLinear}  ${ends(linear.interval)}`,
        interval: linear.interval,
        estimate: linear.estimate,
        curve: linear.curve,
      },
      linearised: {
        label: `${words.lane}  ${ends(found.intervals[kind])}`,
        interval: found.intervals[kind],
        estimate: found.estimate,
        curve: found.curve,
      },
      monteCarlo: {
        label: `${words.laneMonteCarlo}  ${ends(interval)}`,
        interval,
        estimate: monteCarlo.estimate,
        histogram: monteCarlo.histogram,
        trials: monteCarlo.trials,
      },
      width: WIDE,
      height: PLOT,
    },
    numbers,
  );
  return html`${table}${figureMarkup(report, sceneMarkup(scene), fill(words.pictureCaption, { y, p }))}`;
}
