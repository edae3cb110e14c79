import { WIDE, sceneMarkup } from "../draw/scene.ts";
import { gridScene } from "../../present/pictures/grid.ts";
import { sweepScene } from "../../present/pictures/sweep.ts";
import { fillText } from "../../present/fill.ts";
import { overUnit } from "../../present/numbers.ts";
import { symbolText } from "../../present/symbol.ts";
import { gridTable, sweepSentence, sweepTable, sweptResults, type Swept } from "../../present/tables/sweep.ts";
import { figureMarkup } from "../figure.ts";
import { fill, html, type Markup } from "../markup.ts";
import { eachMeasurand, type Report, type Section } from "../report.ts";
import { symbolMarkup } from "../symbol.ts";
import { presentedTable } from "../table.ts";

/** The result over a range, if the study sweeps one. */
export const sweep: Section = {
  id: "sweep",
  render(report) {
    const { record, messages } = report;
    if (record.sweep === null) return null;
    return html`<p>${fillText(messages.sweep.intro, { quantity: report.translate(record.sweep.quantity) })}</p>
      ${eachMeasurand(report, (_, name) => {
        const swept = sweptResults(record, name);
        if (record.sweep?.second !== undefined)
          return html`<p>${sweepSentence(record, swept, report)}</p>
            ${gridPicture(report, name, swept)}${presentedTable(report, gridTable(record, name, swept, report))}`;
        return html`<p>${sweepSentence(record, swept, report)}</p>
          ${picture(report, name, swept)}${presentedTable(report, sweepTable(record, name, swept, report))}`;
      })}`;
  },
};

function picture(report: Report, name: string, { unit, results }: Swept): Markup | null {
  const { record, messages, numbers } = report;
  const words = messages.sweep;
  const { unit: along } = record.sweep!;
  const quantity = report.translate(record.sweep!.quantity);
  const { symbol } = record.measurands[name]!;
  if (results.length < 2) return null;
  const scene = sweepScene(
    {
      name: fillText(words.pictureName, { y: symbolText(symbol), quantity }),
      titles: [overUnit(quantity, along), [{ symbol }, overUnit("", unit)]],
      points: results.map(({ at, result: { linear, monteCarlo } }) => ({
        at,
        linear: [linear.interval[0], linear.estimate, linear.interval[1]],
        monteCarlo: [monteCarlo.interval[0], monteCarlo.estimate, monteCarlo.interval[1]],
      })),
      width: WIDE,
      height: 180,
    },
    numbers,
  );
  return figureMarkup(
    report,
    sceneMarkup(scene),
    fill(words.pictureCaption, { y: symbolMarkup(symbol), p: numbers.probability(record.coverage.probability) }),
  );
}

function gridPicture(report: Report, name: string, swept: Swept): Markup {
  const { record, messages } = report;
  const words = messages.sweep;
  const { quantity, second } = record.sweep!;
  const { symbol } = record.measurands[name]!;
  return figureMarkup(
    report,
    sceneMarkup(gridScene(record, name, swept, { width: WIDE, height: 180 }, report)),
    fill(words.gridPictureCaption, { y: symbolMarkup(symbol), quantity, second: second!.quantity }),
  );
}
