import { html, type Child } from "../draw/node.ts";
import { speech, messages } from "../language.ts";
import { words as pageWords } from "../later-words.ts";
import { overUnit } from "../../present/numbers.ts";
import { fixed, plain, whole } from "../numbers.ts";
import { fillText } from "../../present/fill.ts";
import { labelOf } from "../../present/pictures/label.ts";
import { labelNodes } from "../draw/symbol.ts";
import {
  allanTable,
  comparisonsTable,
  pointsTable,
  smallerTable,
  windowsTable,
  zoneText,
} from "../../present/tables/survey.ts";
import type { Table } from "../../present/tables/table.ts";
import { tableNode } from "../draw/table.ts";
import { numbersBehind } from "../draw/numbers-table.ts";
import { allanPicture } from "./allan-picture.ts";
import type { AllanPoint, AxisEvaluation, EvaluatedSurvey } from "../../api/surveys.ts";
import { duration, milli } from "./figures.ts";
import { logPicture } from "./log-picture.ts";
import { determinationPicture, type Determination } from "./swap-picture.ts";
import { stackingTable } from "./table.ts";
import { sidesOf, zonePicture } from "./zone-picture.ts";

const words = messages.survey;
const said = messages.surveyPanels;

/** One section of a survey: drawn into an element of its own, anew at every width. */
export interface SurveyPanel {
  readonly id: string;
  readonly title: string;
  appliesTo(survey: EvaluatedSurvey): boolean;
  render(element: HTMLElement, survey: EvaluatedSurvey, width: number): Child[];
}

const note = (...children: readonly Child[]): HTMLElement => html("p", { class: "note" }, ...children);
/** Two beside each other if both keep a readable width. */
const half = (width: number): number => (width < 660 ? width : Math.floor((width - 32) / 2));

const logs: SurveyPanel = {
  id: "survey-log",
  title: words.logs,
  appliesTo: () => true,
  render(element, survey, width) {
    const { stability, stay, outlines } = survey.evaluation;
    return [
      html(
        "p",
        {},
        fillText(said.stayed, {
          thermometer: stay.thermometer,
          position: stay.position,
          time: duration(stay.to - stay.from),
          count: whole(stability.windows),
          window: duration(stability.window),
          halfRange: milli(stability.worst.halfRange),
        }),
      ),
      logPicture(survey, width),
      note(said.logsNote),
      stackingTable("survey-windows", windowsTable(survey.evaluation, speech)),
      numbersBehind(element, "survey-log", () => outlinesTable(outlines)),
    ];
  },
};

const drawable = (points: readonly AllanPoint[]): readonly AllanPoint[] =>
  points.filter(({ deviation }) => deviation > 0);

const averaging: SurveyPanel = {
  id: "survey-allan",
  title: words.averaging,
  // Readings that do not differ at some averaging time have no place on a scale of ratios.
  appliesTo: ({ evaluation: { stability } }) => drawable(stability.allan).length > 1,
  render(element, { evaluation: { stability, stay } }, width) {
    const sentence = speech.translate(stability.reasoning.at(-1)!);
    return [
      html("p", {}, `${sentence[0]!.toUpperCase()}${sentence.slice(1)}.`),
      allanPicture(drawable(stability.allan), Math.min(width, 520)),
      note(fillText(said.averagingNote, { thermometer: stay.thermometer })),
      numbersBehind(element, "survey-allan", () => allanTable({ stability }, speech)),
    ];
  },
};

const zone: SurveyPanel = {
  id: "survey-zone",
  title: words.zone,
  appliesTo: ({ evaluation: { map } }) => map.points.length > 1,
  render(element, survey, width) {
    const { axial, radial, map } = survey.evaluation;
    const sides = sidesOf(survey);
    const each = sides.length > 1 ? half(width) : width < 660 ? width : Math.min(500, width - 370);
    return [
      ...[axial, radial].flatMap((axis) =>
        axis === null ? [] : [html("p", { id: `zone-${axis.axis}` }, zoneWords(axis))],
      ),
      html(
        "div",
        { class: "zone-row" },
        sides.map((pair, i) => zonePicture(survey, pair, `zone-${i + 1}`, each)),
        axial === null && radial === null
          ? null
          : html("div", {}, tableNode(smallerTable(survey.evaluation, speech), "survey-smaller")),
      ),
      note(fillText(said.zoneNote, { reference: map.reference.position })),
      map.unresolved.length === 0
        ? null
        : html(
            "p",
            {},
            fillText(said.unresolved, {
              reference: map.reference.position,
              positions: map.unresolved.join(", "),
            }),
          ),
      numbersBehind(element, "survey-zone", () => pointsTable(survey.evaluation, speech)),
    ];
  },
};

function zoneWords({ axis, zone: chosen, limits, quantity }: AxisEvaluation): Child[] {
  const head = quantity.estimate === 0 ? said[axis] : { axial: said.axialAbout, radial: said.radialAbout }[axis];
  return [
    html("strong", {}, fillText(head, { halfWidth: milli(quantity.halfWidth), estimate: milli(quantity.estimate) })),
    fillText(said.over, {
      zone: zoneText(axis, chosen, speech),
      lowest: milli(limits.lowest),
      highest: milli(limits.highest),
      because: speech.translate(quantity.because),
    }),
  ];
}

const swaps: SurveyPanel = {
  id: "survey-swaps",
  title: words.swaps,
  appliesTo: ({ evaluation: { map } }) => map.comparisons.length > 0,
  render(_element, { evaluation: { map } }, width) {
    const pairs = [...new Set([...map.comparisons, ...map.offsets].map(({ pair }) => pair.join(" − ")))];
    const several = pairs.length > 1;
    const reference = map.reference.position;
    const differences = map.comparisons.map(
      ({ position, pair, method, difference, standardUncertainty }): Determination => ({
        label: several ? `${position}, ${pair.join(", ")}` : position,
        value: difference,
        standardUncertainty,
        swapped: method === "swapped",
        words: fillText(method === "swapped" ? said.swapped : said.moved, {
          position,
          reference,
          difference: milli(difference),
          u: milli(standardUncertainty),
          pair: pair.join(messages.and),
        }),
      }),
    );
    const each = half(width);
    return [
      html("p", {}, said.swapsIntro),
      html(
        "div",
        { class: "end-pair" },
        html(
          "div",
          {},
          html("h3", {}, words.bathPart),
          determinationPicture({
            id: "swap-differences",
            name: fillText(said.comparisonsName, { reference, list: listed(differences) }),
            title: fillText(said.comparisonsAxis, { reference }),
            rows: differences,
            line: { at: 0, word: map.reference.position },
            width: each,
          }),
        ),
        pairs.map((name, i) => {
          const own = map.offsets.filter(({ pair }) => pair.join(" − ") === name);
          if (own.length === 0) return null;
          const mean = own.reduce((sum, { offset }) => sum + offset, 0) / own.length;
          const rows = own.map(({ from, offset, standardUncertainty }): Determination => ({
            label: shortFrom(from),
            value: offset,
            standardUncertainty,
            swapped: from.startsWith("swap"),
            words: fillText(said.offset, {
              from,
              pair: name,
              offset: milli(offset),
              u: milli(standardUncertainty),
            }),
          }));
          return html(
            "div",
            {},
            html("h3", {}, words.ownOffset),
            determinationPicture({
              id: `swap-offset-${i + 1}`,
              name: fillText(said.offsetsName, { pair: name, list: listed(rows) }),
              title: `${name} / mK`,
              rows,
              line: { at: mean, word: said.mean },
              width: each,
            }),
          );
        }),
      ),
      note(labelNodes(labelOf(said.marks, { u: { symbol: "u" } }))),
      stackingTable("survey-comparisons", comparisonsTable({ map }, speech)),
    ];
  },
};

const listed = (rows: readonly Determination[]): string =>
  rows.map(({ label, value }) => `${label} ${milli(value)}`).join(", ");

/** "both at centre, step 1" in the room of a picture. */
const shortFrom = (from: string): string =>
  from
    .replace(/^swap at /, "")
    .replace(/^both at (.*), step (\d+)$/, (_, where: string) => fillText(pageWords.survey.bothAt, { where }));

/** What the picture of the logs draws. */
const outlinesTable = (outlines: EvaluatedSurvey["evaluation"]["outlines"]): Table => ({
  caption: words.outlines,
  columns: [
    { head: words.thermometer, kind: "head" },
    { head: overUnit(words.time, "s"), kind: "number" },
    { head: overUnit(words.lowest, "°C"), kind: "number" },
    { head: overUnit(words.highest, "°C"), kind: "number" },
  ],
  rows: outlines.flatMap(({ thermometer, times, lowest, highest }) =>
    times.map((time, i) => ({
      head: thermometer,
      cells: [plain(Number(time.toFixed(3))), fixed(lowest[i]!, 5), fixed(highest[i]!, 5)],
    })),
  ),
});

/** Pictures of a survey in the order of the sheet. */
export const surveyPanels: readonly SurveyPanel[] = [logs, averaging, zone, swaps];
