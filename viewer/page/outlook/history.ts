import type { OpenedOutlook } from "../../api/outlooks.ts";
import {
  historyChart,
  historyEntriesTable,
  historyScene,
  historySentences,
  historyStatementsTable,
  historyTable,
} from "../../present/tables/history.ts";
import { html } from "../draw/node.ts";
import { messages, speech } from "../language.ts";
import { paragraphs, pictured, tablesOf } from "./parts.ts";

type Opened = Extract<OpenedOutlook, { readonly kind: "history" }>;
type Evaluation = Parameters<typeof historyTable>[0];

/** A history: drift and due days of every quantity, its line and its control chart. */
export function historyPart(opened: Opened, width: number): HTMLElement {
  const found = opened.history as unknown as Evaluation;
  const words = messages.history;
  const table = tablesOf("history", opened.title);
  return html(
    "div",
    {},
    html("p", {}, found.subject),
    table(historyTable(found, speech)),
    paragraphs(found.quantities.flatMap((quantity) => historySentences(quantity, speech))),
    paragraphs([words.rule]),
    found.quantities.map((quantity, i) => {
      const own = tablesOf(`history-${i}`, quantity.name);
      return html(
        "section",
        { class: "calibrated", "aria-labelledby": `history-${i}` },
        html("h3", { id: `history-${i}` }, quantity.name),
        pictured(historyScene(quantity, found.use, { width, height: 220 }, speech), words.pictureCaption),
        pictured(historyChart(quantity, width, speech), words.chartCaption),
        own(historyEntriesTable(quantity, speech)),
        own(historyStatementsTable(quantity, speech)),
      );
    }),
  );
}
