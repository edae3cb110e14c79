import type { Cause, ExplanationRecord, RunRecord } from "../../../engine/index.ts";
import { movesRange, movesScene, type Move } from "../../present/pictures/moves.ts";
import { sceneNode } from "../draw/scene.ts";
import { en } from "../../present/messages/en/index.ts";
import { html, type Child } from "../draw/node.ts";
import { fixed, overUnit, percent, whole, withUnit } from "../../present/numbers.ts";
import { readable, type Readable } from "../../present/readable.ts";
import { swatch } from "../draw/swatch.ts";
import { secondOrderRows } from "../../present/tables.ts";
import { labelNodes, sentenceNodes, symbolNode } from "../draw/symbol.ts";
import type { Panel } from "./panel.ts";

const CAUSES: readonly { readonly cause: Cause; readonly label: string }[] = (
  ["curvature", "shape", "degreesOfFreedom"] as const
).map((cause) => ({ cause, label: en.validation[cause] }));

/** What makes the two intervals differ, and what to do about it. */
export const why: Panel = {
  id: "why",
  title: en.validation.whyHead,
  appliesTo: ({ measurands }) => Object.values(measurands).some(({ explanation }) => explanation != null),
  render(element, record, name, { reading, width }) {
    const measurand = readable(record.measurands[name]!, reading.unit ?? null);
    const { explanation } = measurand;
    if (explanation === null) {
      element.replaceChildren(html("p", {}, "The record holds no explanation of this measurand."));
      return;
    }
    const { recommendation, sentence } = explanation;
    element.replaceChildren(
      html("p", { class: "sentence", id: "why-sentence" }, sentenceNodes(sentence, record)),
      html(
        "p",
        { class: "advice", id: "recommendation" },
        html("strong", {}, `${en.validation.followsHead}: `),
        sentenceNodes(recommendation.sentence, record),
      ),
      walks(measurand, explanation, width),
      html(
        "div",
        { class: "why-tables" },
        html(
          "div",
          {
            class: "wide-table",
            tabindex: 0,
            role: "region",
            "aria-label": "What each cause moves the endpoints by",
            id: "why-table",
          },
          parts(measurand, explanation, record),
        ),
        nextOrder(measurand),
      ),
    );
  },
};

const movesOf = ({ parts: found, remainder }: ExplanationRecord, end: 0 | 1): Move[] => [
  ...CAUSES.map(({ cause, label }) => ({ label, by: found[cause].shapley[end] })),
  { label: en.validation.remainder, by: remainder[end] },
];

/** A move with its sign. */
const signed = (value: number, places: number): string => {
  const text = fixed(value, places);
  return value > 0 && Number(text) !== 0 ? `+${text}` : text;
};

function walks(measurand: Readable, explanation: ExplanationRecord, width: number): HTMLElement {
  const { unit, validation } = measurand;
  const δ = validation.numericalTolerance;
  const { places } = measurand;
  const ends = [movesOf(explanation, 0), movesOf(explanation, 1)] as const;
  const range = movesRange(ends, δ);
  const each = width < 640 ? width : Math.floor((width - 32) / 2);
  const one = (end: 0 | 1): HTMLElement =>
    html(
      "div",
      { class: "end-block", id: `why-${end === 0 ? "low" : "high"}` },
      html(
        "h3",
        {},
        `${end === 0 ? "Lower" : "Upper"} endpoint: moved by ${withUnit(signed(explanation.difference[end], places), unit)}`,
      ),
      sceneNode(
        movesScene({
          name: `How the causes move the ${end === 0 ? "lower" : "upper"} endpoint: ${ends[end].map(({ label, by }) => `${label} ${withUnit(signed(by, places), unit)}`).join(", ")}.`,
          moves: ends[end],
          tolerance: δ,
          range,
          width: each,
          text: (value) => signed(value, places),
          axisLabel: overUnit("distance from the linear endpoint", unit),
        }),
      ),
    );
  return html(
    "div",
    { class: "ends" },
    html(
      "p",
      { class: "note" },
      "Each bar starts where the one above it stopped, from the linear endpoint (dashed, ± δ hatched) to the Monte Carlo endpoint. Both pictures have one scale.",
    ),
    html("div", { class: "end-pair" }, one(0), one(1)),
  );
}

function parts({ unit, places }: Readable, explanation: ExplanationRecord, { inputs }: RunRecord): HTMLElement {
  const text = (value: number): string => signed(value, places);
  const row = (
    label: Child,
    [low, high]: readonly [number, number],
    alone: readonly [number, number] | null,
    share: string,
    by: Child,
  ): HTMLElement =>
    html(
      "tr",
      {},
      html("th", { scope: "row" }, label, by),
      html("td", {}, text(low)),
      html("td", {}, text(high)),
      html("td", {}, alone === null ? "–" : text(alone[0])),
      html("td", {}, alone === null ? "–" : text(alone[1])),
      html("td", {}, share),
    );
  const made = (names: readonly string[]): Child =>
    names.length === 0
      ? null
      : html(
          "span",
          { class: "source" },
          "above all ",
          names.slice(0, 4).map((name, i) => [i === 0 ? "" : ", ", symbolNode(inputs[name]!.symbol)]),
        );
  return html(
    "table",
    { class: "plain", id: "why-parts" },
    html(
      "caption",
      {},
      `What each cause moves the endpoints by (Shapley values from ${whole(explanation.trials)} trials a propagation)`,
    ),
    html(
      "thead",
      {},
      html(
        "tr",
        {},
        html("th", { scope: "col" }, overUnit("cause", unit)),
        html("th", { scope: "col" }, "lower endpoint"),
        html("th", { scope: "col" }, "upper endpoint"),
        html("th", { scope: "col" }, "lower, alone"),
        html("th", { scope: "col" }, "upper, alone"),
        html("th", { scope: "col" }, "part"),
      ),
    ),
    html(
      "tbody",
      {},
      CAUSES.map(({ cause, label }) => {
        const { shapley, alone, share, inputs: names } = explanation.parts[cause];
        return row(label, shapley, alone, percent(share, 0), made(names));
      }),
      row(en.validation.remainder, explanation.remainder, null, "–", null),
      row(en.validation.difference, explanation.difference, null, "", null),
      row("interplay of the causes, divided among the rows above", explanation.interplay, null, "–", null),
    ),
  );
}

/** The budget mended by its next-order terms, beside the first-order one. */
function nextOrder(measurand: Readable): HTMLElement {
  const { unit, secondOrder } = measurand;
  if (secondOrder === null)
    return html(
      "p",
      { class: "note" },
      "The next-order terms of the budget (JCGM 100, 5.1.2, note) are not computed where inputs are correlated, or where the model bends too sharply for them.",
    );
  const rows = secondOrderRows(measurand, en);
  return html(
    "table",
    { class: "plain", id: "second-order" },
    html("caption", {}, "The budget with its next-order terms (JCGM 100, 5.1.2, note)"),
    html(
      "thead",
      {},
      html(
        "tr",
        {},
        html("th", { scope: "col" }, overUnit("figure", unit)),
        html("th", { scope: "col" }, swatch("linear"), en.secondOrder.first),
        html("th", { scope: "col" }, swatch("linear"), en.secondOrder.second),
      ),
    ),
    html(
      "tbody",
      {},
      rows.map(({ head, cells }) =>
        html(
          "tr",
          {},
          html("th", { scope: "row" }, labelNodes(head)),
          cells.map((cell) => html("td", {}, cell)),
        ),
      ),
    ),
  );
}
