import { VERSION, type Evidence } from "../../engine/index.ts";
import type { LaboratoriesEvaluation, LaboratoryComparison } from "../../models/index.ts";
import type { Messages } from "../present/messages/messages.ts";
import { speechOf } from "../present/speech-of.ts";
import { consistencySentences, equivalenceTable, referenceTable } from "../present/tables/equivalence.ts";
import { html } from "./markup.ts";
import { presentedTable } from "./table.ts";
import { filesPart, titledDocument } from "./titled-document.ts";

/** A comparison between laboratories as one HTML document: reference values, consistency, degrees of equivalence. */
export function equivalenceHtml(
  found: LaboratoriesEvaluation,
  comparison: LaboratoryComparison,
  files: Evidence["files"],
  messages: Messages,
): string {
  const speech = speechOf(messages);
  const program = `trialband ${VERSION}`;
  const { title, quantity } = comparison;
  return titledDocument(
    {
      kind: messages.equivalence.document,
      title,
      laboratory: quantity,
      foot: program,
      facts: [
        [messages.equivalence.quantity, quantity],
        [messages.head.program, program],
      ],
      main: html`<section>
          ${presentedTable(speech, referenceTable(found, comparison, speech))}
          ${consistencySentences(found, comparison, speech).map((text) => html`<p>${text}</p>`)}
        </section>
        <section>${presentedTable(speech, equivalenceTable(found, comparison, speech))}</section>
        ${filesPart(messages, files)}`,
    },
    messages,
  );
}
