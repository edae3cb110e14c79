import { VERSION, type Evidence } from "../../engine/index.ts";
import type { HistoryEvaluation } from "../../models/index.ts";
import type { Messages } from "../present/messages/messages.ts";
import { speechOf } from "../present/speech-of.ts";
import {
  historyChart,
  historyEntriesTable,
  historyScene,
  historySentences,
  historyStatementsTable,
  historyTable,
} from "../present/tables/history.ts";
import { sceneMarkup, WIDE } from "./draw/scene.ts";
import { html } from "./markup.ts";
import { presentedTable } from "./table.ts";
import { figureOf, filesPart, titledDocument } from "./titled-document.ts";

/** A history as one HTML document: drift and due days, every quantity with its line and its control chart. */
export function historyHtml(
  title: string,
  found: HistoryEvaluation,
  files: Evidence["files"],
  messages: Messages,
): string {
  const speech = speechOf(messages);
  const words = messages.history;
  const program = `trialband ${VERSION}`;
  return titledDocument(
    {
      kind: words.kind,
      title,
      laboratory: found.subject,
      foot: program,
      facts: [[messages.head.program, program]],
      main: html`<section>
          ${presentedTable(speech, historyTable(found, speech))}
          ${found.quantities.flatMap((one) => historySentences(one, speech)).map((text) => html`<p>${text}</p>`)}
          <p>${words.rule}</p>
        </section>
        ${found.quantities.map(
          (one) =>
            html`<section>
              ${figureOf(
                messages,
                sceneMarkup(historyScene(one, found.use, { width: WIDE, height: 200 }, speech)),
                words.pictureCaption,
              )}
              ${figureOf(messages, sceneMarkup(historyChart(one, WIDE, speech)), words.chartCaption)}
              ${presentedTable(speech, historyEntriesTable(one, speech))}
              ${presentedTable(speech, historyStatementsTable(one, speech))}
            </section>`,
        )}
        ${filesPart(messages, files)}`,
    },
    messages,
  );
}
