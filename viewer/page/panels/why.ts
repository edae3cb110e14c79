import type { ExplanationRecord } from "../../../engine/index.ts";
import { movesRange, movesScene } from "../../present/pictures/moves.ts";
import { sceneNode } from "../draw/scene.ts";
import { speech, messages } from "../language.ts";
import { html } from "../draw/node.ts";
import { tableNode, wideTable } from "../draw/table.ts";
import { overUnit, withUnit } from "../../present/numbers.ts";
import { readable, type Readable } from "../../present/readable.ts";
import { causesTable, movesAt, signedText } from "../../present/tables/causes.ts";
import { secondOrderTable } from "../../present/tables/second-order.ts";
import { sentenceNodes } from "../draw/symbol.ts";
import type { Panel } from "./panel.ts";

/** What makes the two intervals differ, and what to do about it. */
export const why: Panel = {
  id: "why",
  title: messages.validation.whyHead,
  concludes: true,
  appliesTo: ({ measurands }) => Object.values(measurands).some(({ explanation }) => explanation != null),
  render(element, record, name, { reading, width }) {
    const measurand = readable(record.measurands[name]!, reading.unit ?? null);
    const { explanation } = measurand;
    if (explanation === null) {
      element.replaceChildren(html("p", {}, messages.explanationPanel.absent));
      return;
    }
    const { recommendation, sentence } = explanation;
    element.replaceChildren(
      html("p", { class: "sentence", id: "why-sentence" }, sentenceNodes(sentence, record)),
      html(
        "p",
        { class: "advice", id: "recommendation" },
        html("strong", {}, `${messages.validation.followsHead}: `),
        sentenceNodes(recommendation.sentence, record),
      ),
      walks(measurand, explanation, width),
      html(
        "div",
        { class: "why-tables" },
        wideTable(causesTable(measurand, explanation, record, speech), "why-table"),
        nextOrder(measurand),
      ),
    );
  },
};

function walks(measurand: Readable, explanation: ExplanationRecord, width: number): HTMLElement {
  const { unit, validation } = measurand;
  const text = (value: number): string => signedText(value, measurand.places, speech.numbers);
  const δ = validation.numericalTolerance;
  const ends = [movesAt(explanation, 0, speech), movesAt(explanation, 1, speech)] as const;
  const range = movesRange(ends, δ);
  const each = width < 640 ? width : Math.floor((width - 32) / 2);
  const one = (end: 0 | 1): HTMLElement =>
    html(
      "div",
      { class: "end-block", id: `why-${end === 0 ? "low" : "high"}` },
      html(
        "h3",
        {},
        `${end === 0 ? messages.monteCarlo.low : messages.monteCarlo.high}: ${messages.validation.movedBy} ${withUnit(text(explanation.difference[end]), unit)}`,
      ),
      sceneNode(
        movesScene(
          {
            name: `${messages.validation.causesName}, ${end === 0 ? messages.validation.endLow : messages.validation.endHigh}: ${ends[end].map(({ label, by }) => `${label} ${withUnit(text(by), unit)}`).join(", ")}.`,
            moves: ends[end],
            tolerance: δ,
            range,
            width: each,
            text,
            axisLabel: overUnit(messages.endpointsPanel.distance, unit),
          },
          speech.numbers,
        ),
      ),
    );
  return html(
    "div",
    { class: "ends" },
    html("p", { class: "note" }, messages.explanationPanel.walks),
    html("div", { class: "end-pair" }, one(0), one(1)),
  );
}

/** The budget mended by its next-order terms, beside the first-order one. */
function nextOrder(measurand: Readable): HTMLElement {
  const table = secondOrderTable(measurand, speech);
  if (table !== null) return tableNode(table, "second-order");
  return html(
    "p",
    { class: "note" },
    measurand.secondOrder === null ? messages.secondOrder.absent : messages.secondOrder.none,
  );
}
