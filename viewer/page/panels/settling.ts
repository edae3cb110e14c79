import type { Figure, MeasurandRecord, RunRecord } from "../../../engine/index.ts";
import { en } from "../../present/messages/en/index.ts";
import { html, type Child } from "../draw/node.ts";
import { decimalsFor, fixed, overUnit, whole, withUnit } from "../../present/numbers.ts";
import { fillText } from "../../present/fill.ts";
import { numbersBehind } from "../draw/numbers-table.ts";
import { readable } from "../../present/readable.ts";
import { sceneNode } from "../draw/scene.ts";
import { FIGURES, settlingReach, settlingScene } from "../../present/pictures/settling.ts";
import { symbolNode } from "../draw/symbol.ts";
import type { Panel } from "./panel.ts";

const NAMES: Readonly<Record<Figure, string>> = en.settling;

/** Whether more trials would still move the figures. */
export const settling: Panel = {
  id: "settling",
  title: en.panels.settling,
  appliesTo: () => true,
  render(element, record, name, { width, reading, provisional }) {
    const measurand = readable(record.measurands[name]!, reading.unit ?? null);
    const { points, limit, settled } = measurand.monteCarlo.settling;
    if (points.length < 2) {
      element.replaceChildren(
        html("p", {}, "It takes two batches of trials to tell. ", `One batch has ${whole(record.trials.batch)}.`),
      );
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
        html("strong", {}, settled ? "Yes" : "No"),
        ": twice the standard deviation of each average, 2",
        html("var", {}, "s", html("sub", {}, "z")),
        settled ? ", is at most " : " is not yet at most ",
        `δ/5 = ${withUnit(fixed(limit, decimalsFor(limit, 2)), measurand.unit)}${settled ? "" : " everywhere"} (JCGM 101, 7.9.4 with 8.2).`,
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
        `Each picture: the average over the batches so far, ${overUnit("less its last value", measurand.unit)}; band: ± 2`,
        html("var", {}, "s", html("sub", {}, "z")),
        "; dotted: ± δ/5. All four have one scale; what lies beyond it at the start is cut off.",
      ),
      settlingNumbers(element, measurand, record, places),
    );
  },
};

/** The rule this run stops by, and what it did. */
function stoppingRule({ study, trials }: RunRecord, provisional: boolean): string {
  const batches = `batches of ${whole(trials.batch)} trials`;
  if (study.trials !== "adaptive") {
    return `The study fixes the number of trials, ${whole(study.trials)}; these pictures only tell whether that was enough. With “adaptive” the run would draw ${batches} until every figure of every measurand has settled.`;
  }
  const rule = `The run draws ${batches} until every figure of every measurand has settled, ${whole(study.maximumTrials)} trials at most.`;
  if (provisional) return `${rule} It goes on.`;
  return trials.stop === "settled"
    ? `${rule} It stopped when they had, after ${whole(trials.count)}.`
    : `${rule} It stopped at that limit, before they had.`;
}

function one(measurand: MeasurandRecord, figure: Figure, reach: number, width: number, places: number): HTMLElement {
  const { unit } = measurand;
  const { points, limit, doubled } = measurand.monteCarlo.settling;
  const end = points.at(-1)!.averages[figure];
  const band = doubled[figure];
  const head = (value: Child): HTMLElement =>
    html("h3", {}, NAMES[figure], figureSymbol(measurand, figure), html("span", { class: "value" }, "ends at ", value));
  if (end === null || band === null) {
    return html(
      "div",
      { class: "settling-one" },
      head("none"),
      html("p", { class: "note" }, "The distribution has none to settle."),
    );
  }
  const comparison = `${fixed(band, places)} ${band <= limit ? "≤" : ">"} ${fixed(limit, places)}`;
  return html(
    "div",
    { class: "settling-one", id: `settling-${figure}` },
    head(withUnit(fixed(end, places), unit)),
    sceneNode(
      settlingScene({
        trials: fillText(en.settling.trials, { trials: whole(points.at(-1)!.trials) }),
        name: `${NAMES[figure]} against trials: ends at ${withUnit(fixed(end, places), unit)} with 2 s_z = ${withUnit(fixed(band, places), unit)}; the limit is ${withUnit(fixed(limit, places), unit)}.`,
        figure,
        points,
        limit,
        reach,
        width,
      }),
    ),
    html(
      "p",
      { class: "note number-note" },
      "2",
      html("var", {}, "s", html("sub", {}, "z")),
      ` = ${comparison}`,
      html("span", {}, band <= limit ? " settled" : " not settled"),
    ),
  );
}

function figureSymbol({ symbol }: MeasurandRecord, figure: Figure): Child {
  if (figure === "estimate") return [" ", symbolNode(symbol)];
  if (figure === "standardUncertainty") return [" ", html("var", {}, "u"), "(", symbolNode(symbol), ")"];
  return "";
}

function settlingNumbers(
  element: HTMLElement,
  { unit, monteCarlo }: MeasurandRecord,
  record: RunRecord,
  places: number,
): HTMLElement {
  const text = (value: number | null): string => (value === null ? "–" : fixed(value, places));
  return numbersBehind(
    element,
    "course",
    `Averages over the batches of ${whole(record.trials.batch)} trials, and 2 s_z of each`,
    ["trials", ...FIGURES.flatMap((figure) => [overUnit(NAMES[figure].toLowerCase(), unit), "2 s_z"])],
    () =>
      monteCarlo.settling.points.map(({ trials, averages, doubled }) => [
        whole(trials),
        ...FIGURES.flatMap((figure) => [text(averages[figure]), text(doubled[figure])]),
      ]),
  );
}
