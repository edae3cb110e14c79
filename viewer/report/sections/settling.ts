import { HALF, sceneMarkup } from "../draw/scene.ts";
import { FIGURES, settlingReach, settlingScene } from "../../present/pictures/settling.ts";
import { figureMarkup } from "../figure.ts";
import { fill, fillText, html, type Markup } from "../markup.ts";
import type { Readable } from "../../present/readable.ts";
import { eachMeasurand, letter, unitText, type Report, type Section } from "../report.ts";
import { symbolMarkup } from "../symbol.ts";
import { tableMarkup } from "../table.ts";

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
      ${eachMeasurand(report, (measurand) => html`${figures(report, measurand)}${pictures(report, measurand)}`)}`;
  },
};

function figures(report: Report, measurand: Readable): Markup {
  const { messages, numbers } = report;
  const words = messages.settling;
  const { settling: found } = measurand.monteCarlo;
  const last = found.points.at(-1);
  const places = measurand.settlingPlaces;
  const at = (value: number | null | undefined): string =>
    value === null || value === undefined ? messages.none : numbers.fixed(value, places);
  return tableMarkup(
    { messages, decimalSign: numbers.decimalSign },
    {
      caption: fill(words.caption, { y: symbolMarkup(measurand.symbol), unit: unitText(report, measurand.unit) }),
      columns: [
        { head: words.figure, kind: "head" },
        { head: words.average, kind: "number" },
        { head: fill(words.doubled, { s: letter("s_z") }), kind: "number" },
        { head: fill(words.limitHead, { delta: letter("δ") }), kind: "number" },
        { head: words.verdict, kind: "text" },
      ],
      rows: FIGURES.map((figure) => {
        const doubled = found.doubled[figure];
        return [
          words[figure],
          at(last?.averages[figure]),
          at(doubled),
          at(found.limit),
          doubled === null ? messages.notApplicable : doubled <= found.limit ? words.yes : words.no,
        ];
      }),
    },
  );
}

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
