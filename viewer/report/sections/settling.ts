import { HALF, sceneMarkup } from "../draw/scene.ts";
import { FIGURES, settlingReach, settlingScene } from "../../present/pictures/settling.ts";
import { figureMarkup } from "../figure.ts";
import { fillText } from "../../present/fill.ts";
import { fill, html, type Markup } from "../markup.ts";
import type { Readable } from "../../present/readable.ts";
import { eachMeasurand, letter, unitText, type Report, type Section } from "../report.ts";
import { symbolMarkup } from "../symbol.ts";
import { settlingTable } from "../../present/tables/settling.ts";
import { presentedTable } from "../table.ts";

/** Why the trials were enough, or were not. */
export const settling: Section = {
  id: "settling",
  render(report) {
    const { record, messages, numbers } = report;
    const words = messages.settling;
    const { count, batch, stop } = record.trials;
    return html`<p>
        ${fill(words[stop], { trials: numbers.whole(count) })}
        ${fill(words.rule, { batch: numbers.whole(batch), s: letter("s_z"), delta: letter("δ") })}
      </p>
      ${eachMeasurand(report, (measurand) => html`${presentedTable(report, settlingTable(measurand, report))}${pictures(report, measurand)}`)}`;
  },
};

function pictures(report: Report, measurand: Readable): Markup | null {
  const { messages, numbers } = report;
  const words = messages.settling;
  const { points, limit } = measurand.monteCarlo.settling;
  if (points.length < 2) return null;
  const reach = settlingReach(points, limit);
  const trials = fillText(words.trials, { trials: numbers.whole(points.at(-1)!.trials) });
  const drawn = FIGURES.filter((figure) => points.at(-1)!.averages[figure] !== null).map(
    (figure) =>
      html`<div class="half">
        <p class="head">${words[figure]}</p>
        ${sceneMarkup(
          settlingScene(
            {
              name: fillText(words.pictureName, {
                figure: words[figure],
                trials: numbers.whole(points.at(-1)!.trials),
              }),
              figure,
              points,
              limit,
              reach,
              width: HALF,
              trials,
            },
            numbers,
          ),
        )}
      </div>`,
  );
  return figureMarkup(
    report,
    drawn,
    fill(words.pictureCaption, {
      y: symbolMarkup(measurand.symbol),
      s: letter("s_z"),
      delta: letter("δ"),
      unit: unitText(report, measurand.unit),
    }),
  );
}
