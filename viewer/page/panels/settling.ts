import type { Figure, MeasurandRecord, RunRecord } from "../../../engine/index.ts";
import { speech, messages } from "../language.ts";
import { html, type Child } from "../draw/node.ts";
import { decimalsFor, withUnit } from "../../present/numbers.ts";
import { fixed, whole } from "../numbers.ts";
import { fillText } from "../../present/fill.ts";
import { numbersBehind } from "../draw/numbers-table.ts";
import { readable } from "../../present/readable.ts";
import { sceneNode } from "../draw/scene.ts";
import { labelOf } from "../../present/pictures/label.ts";
import { FIGURES, settlingReach, settlingScene } from "../../present/pictures/settling.ts";
import { settlingCourse } from "../../present/tables/settling.ts";
import { labelNodes, symbolNode } from "../draw/symbol.ts";
import type { Panel } from "./panel.ts";

const words = messages.settlingPanel;
const SYMBOLS = { s: { symbol: "s_z" }, delta: { symbol: "δ" } } as const;

/** Whether more trials would still move the figures. */
export const settling: Panel = {
  id: "settling",
  title: messages.panels.settling,
  appliesTo: () => true,
  render(element, record, name, { width, reading, provisional }) {
    const measurand = readable(record.measurands[name]!, reading.unit ?? null);
    const { points, limit, settled } = measurand.monteCarlo.settling;
    if (points.length < 2) {
      element.replaceChildren(html("p", {}, fillText(words.tooFew, { batch: whole(record.trials.batch) })));
      return;
    }
    const columns = width >= 640 ? 4 : width >= 460 ? 2 : 1;
    const each = Math.floor((width - (columns - 1) * 24) / columns);
    const reach = settlingReach(points, limit);
    const places = measurand.settlingPlaces;
    element.replaceChildren(
      html(
        "p",
        {},
        html("strong", {}, settled ? words.yes : words.no),
        labelNodes(
          labelOf(settled ? words.all : words.notAll, {
            ...SYMBOLS,
            limit: withUnit(fixed(limit, decimalsFor(limit, 2)), measurand.unit),
          }),
        ),
      ),
      html("p", { class: "note", id: "stopping-rule" }, stoppingRule(record, provisional)),
      html(
        "div",
        { class: "settling-row", style: `grid-template-columns: repeat(${columns}, minmax(0, 1fr))` },
        FIGURES.map((figure) => one(measurand, figure, reach, each, places)),
      ),
      html(
        "p",
        { class: "note" },
        labelNodes(
          labelOf(messages.settling.pictureCaption, {
            ...SYMBOLS,
            y: { symbol: measurand.symbol },
            unit: measurand.unit === "1" ? messages.model.dimensionless : measurand.unit,
          }),
        ),
        ` ${words.cutOff}`,
      ),
      numbersBehind(element, "course", () => settlingCourse(measurand, record.trials.batch, speech)),
    );
  },
};

/** The rule this run stops by, and what it did. */
function stoppingRule({ study, trials }: RunRecord, provisional: boolean): string {
  const batch = whole(trials.batch);
  if (study.trials !== "adaptive")
    return `${fillText(messages.settling.fixed, { trials: whole(study.trials) })} ${fillText(words.adaptive, { batch })}`;
  const most = whole(study.maximumTrials);
  if (provisional) return fillText(words.goesOn, { batch, most });
  return `${fillText(messages.settling[trials.stop], { trials: whole(trials.count) })} ${fillText(words.batches, { batch, most })}`;
}

function one(measurand: MeasurandRecord, figure: Figure, reach: number, width: number, places: number): HTMLElement {
  const { unit } = measurand;
  const { points, limit, doubled } = measurand.monteCarlo.settling;
  const end = points.at(-1)!.averages[figure];
  const band = doubled[figure];
  const head = (value: string): HTMLElement =>
    html("h3", {}, messages.settling[figure], figureSymbol(measurand, figure), html("span", { class: "value" }, value));
  if (end === null || band === null) {
    return html("div", { class: "settling-one" }, head(messages.none), html("p", { class: "note" }, words.nothing));
  }
  const comparison = `${fixed(band, places)} ${band <= limit ? "≤" : ">"} ${fixed(limit, places)}`;
  return html(
    "div",
    { class: "settling-one", id: `settling-${figure}` },
    head(fillText(words.endsAt, { value: withUnit(fixed(end, places), unit) })),
    sceneNode(
      settlingScene(
        {
          trials: fillText(messages.settling.trials, { trials: whole(points.at(-1)!.trials) }),
          name: fillText(words.pictureName, {
            figure: messages.settling[figure],
            end: withUnit(fixed(end, places), unit),
            band: withUnit(fixed(band, places), unit),
            limit: withUnit(fixed(limit, places), unit),
          }),
          figure,
          points,
          limit,
          reach,
          width,
        },
        speech.numbers,
      ),
    ),
    html(
      "p",
      { class: "note number-note" },
      labelNodes(labelOf(messages.settling.doubled, SYMBOLS)),
      ` = ${comparison}`,
      html("span", {}, ` ${band <= limit ? words.settled : words.notSettled}`),
    ),
  );
}

function figureSymbol({ symbol }: MeasurandRecord, figure: Figure): Child {
  if (figure === "estimate") return [" ", symbolNode(symbol)];
  if (figure === "standardUncertainty") return [" ", html("var", {}, "u"), "(", symbolNode(symbol), ")"];
  return "";
}
