import { html, type Child } from "../draw/node.ts";
import { en } from "../../present/messages/en/index.ts";
import { fixed, overUnit, plain, whole } from "../../present/numbers.ts";
import { ENGLISH } from "../../present/statement.ts";
import { allanTable, comparisonsTable, pointsTable, smallerTable, windowsTable } from "../../present/tables/survey.ts";
import type { Table } from "../../present/tables/table.ts";
import { tableNode } from "../draw/table.ts";
import { numbersBehind } from "../draw/numbers-table.ts";
import { allanPicture } from "./allan-picture.ts";
import type { AllanPoint, AxisEvaluation, EvaluatedSurvey } from "../../api/surveys.ts";
import { duration, milli, millimetres } from "../../present/survey-figures.ts";
import { logPicture } from "./log-picture.ts";
import { determinationPicture, type Determination } from "./swap-picture.ts";
import { stackingTable } from "./table.ts";
import { sidesOf, zonePicture } from "./zone-picture.ts";

const words = en.survey;

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
        `${stay.thermometer} stayed at ${stay.position} for ${duration(stay.to - stay.from)}. Of ${whole(stability.windows)} windows of ${duration(stability.window)}, the worst has a half-range of ${milli(stability.worst.halfRange)}: that is the stability of the bath.`,
      ),
      logPicture(survey, width),
      note(
        "Hatched: the worst window, from its lowest to its highest reading. Below each log: where the thermometer stood; between the frames it was moved or settling, and what it read then is left out. A number is that of the step, where the position’s name has no room.",
      ),
      stackingTable("survey-windows", windowsTable(survey.evaluation, ENGLISH)),
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
    const sentence = stability.reasoning.at(-1)!;
    return [
      html("p", {}, `${sentence[0]!.toUpperCase()}${sentence.slice(1)}.`),
      allanPicture(drawable(stability.allan), Math.min(width, 520)),
      note(
        `How much means of ${stay.thermometer} differ from one averaging time to the next. Ringed: the least. Dotted: independent readings, which fall as one over the square root of their number.`,
      ),
      numbersBehind(element, "survey-allan", () => allanTable({ stability }, ENGLISH)),
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
          : html("div", {}, tableNode(smallerTable(survey.evaluation, ENGLISH), "survey-smaller")),
      ),
      note(
        `Differences from ${map.reference.position}, in mK: ● warmer, ○ colder, as large as the difference; the crossed square is the reference position. Outlined: the zone chosen; dotted: three quarters, half and a quarter of it.`,
      ),
      map.unresolved.length === 0
        ? null
        : html("p", {}, `Not compared with ${map.reference.position}, and not drawn: ${map.unresolved.join(", ")}.`),
      numbersBehind(element, "survey-zone", () => pointsTable(survey.evaluation, ENGLISH)),
    ];
  },
};

const AXES = {
  axial: { name: "Vertical", places: "depths" },
  radial: { name: "Horizontal", places: "radii" },
} as const;

function zoneWords({ axis, zone: [from, to], limits, quantity }: AxisEvaluation): Child[] {
  const { name, places } = AXES[axis];
  const about = quantity.estimate === 0 ? "" : ` about ${milli(quantity.estimate)}`;
  return [
    html("strong", {}, `${name}: ± ${milli(quantity.halfWidth)}${about}`),
    ` over ${places} of ${millimetres(from)} to ${millimetres(to)} (${milli(limits.lowest)} to ${milli(limits.highest)}); ${quantity.because}.`,
  ];
}

const swaps: SurveyPanel = {
  id: "survey-swaps",
  title: words.swaps,
  appliesTo: ({ evaluation: { map } }) => map.comparisons.length > 0,
  render(_element, { evaluation: { map } }, width) {
    const pairs = [...new Set([...map.comparisons, ...map.offsets].map(({ pair }) => pair.join(" − ")))];
    const several = pairs.length > 1;
    const differences = map.comparisons.map(
      ({ position, pair, method, difference, standardUncertainty }): Determination => ({
        label: several ? `${position}, ${pair.join(", ")}` : position,
        value: difference,
        standardUncertainty,
        swapped: method === "swapped",
        words: `${position} less ${map.reference.position}: ${milli(difference)}, u = ${milli(standardUncertainty)}, by ${method === "swapped" ? "swapping" : "moving one of"} ${pair.join(" and ")}`,
      }),
    );
    const each = half(width);
    return [
      html(
        "p",
        {},
        `Swapping a pair turns the sign of its own offset: half the difference of the two placements is the bath’s, half their sum the thermometers’. The offset must come out the same wherever it is found.`,
      ),
      html(
        "div",
        { class: "end-pair" },
        html(
          "div",
          {},
          html("h3", {}, words.bathPart),
          determinationPicture({
            id: "swap-differences",
            name: `Difference from ${map.reference.position} by each comparison, in mK: ${differences.map(({ label, value }) => `${label} ${milli(value)}`).join(", ")}.`,
            title: `difference from ${map.reference.position} / mK`,
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
            words: `${from}: ${name} is ${milli(offset)}, u = ${milli(standardUncertainty)}`,
          }));
          return html(
            "div",
            {},
            html("h3", {}, words.ownOffset),
            determinationPicture({
              id: `swap-offset-${i + 1}`,
              name: `Offset ${name} by each determination, in mK: ${rows.map(({ label, value }) => `${label} ${milli(value)}`).join(", ")}.`,
              title: `${name} / mK`,
              rows,
              line: { at: mean, word: "mean" },
              width: each,
            }),
          );
        }),
      ),
      note(
        "● by swapping, □ by moving one or with both in one place; bar: ± 2",
        html("var", {}, "u"),
        ", where that is wider than the mark.",
      ),
      stackingTable("survey-comparisons", comparisonsTable({ map }, ENGLISH)),
    ];
  },
};

/** "both at centre, step 1" in the room of a picture. */
const shortFrom = (from: string): string =>
  from.replace(/^swap at /, "").replace(/^both at (.*), step (\d+)$/, "both at $1");

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
