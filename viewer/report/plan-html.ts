import type { Evidence, ReportedRecord, Safety } from "../../engine/index.ts";
import type { Confirmation, Plan } from "../../models/index.ts";
import type { Messages } from "../present/messages/messages.ts";
import { frontierScene, halvingsScene, planRangeScene } from "../present/pictures/planning.ts";
import { speechOf } from "../present/speech-of.ts";
import {
  aloneTable,
  frontierTable,
  gainingInputsTable,
  halvingsTable,
  planPointsTable,
  planRemarks,
  planSentences,
} from "../present/tables/planning.ts";
import { sceneMarkup, WIDE } from "./draw/scene.ts";
import { html } from "./markup.ts";
import { presentedTable } from "./table.ts";
import { figureOf, filesPart, headOfRun, titledDocument } from "./titled-document.ts";

export interface ReportedPlan {
  readonly title: string;
  readonly plan: Plan;
  readonly confirmation: Confirmation;
  /** The run of the proposed study. */
  readonly record: ReportedRecord;
  readonly digest: string;
  readonly safety: Safety;
  readonly files: Evidence["files"];
}

const SIZE = { width: WIDE, height: 200 };

/** A plan with its confirmation as one HTML document. */
export function planHtml(
  { title, plan, confirmation, record, digest, files, safety }: ReportedPlan,
  messages: Messages,
): string {
  const speech = speechOf(messages);
  const words = messages.planning;
  const head = headOfRun(record, digest, messages);
  return titledDocument(
    {
      kind: words.kind,
      title,
      ...head,
      facts: [...head.facts, [messages.head.record, digest.slice(0, 16)]],
      main: html`<section>
          ${planSentences(plan, confirmation, speech).map((text) => html`<p>${text}</p>`)}
          ${figureOf(messages, sceneMarkup(planRangeScene(plan, confirmation, SIZE, speech)), words.captionRange)}
          ${presentedTable(speech, planPointsTable(plan, confirmation, speech))}
          ${planRemarks(plan, speech).map((text) => html`<p>${text}</p>`)}
        </section>
        <section>
          ${figureOf(messages, sceneMarkup(frontierScene(plan, SIZE, speech)), words.captionFrontier)}
          ${presentedTable(speech, frontierTable(plan, speech))} ${presentedTable(speech, aloneTable(plan, speech))}
        </section>
        <section>
          ${figureOf(messages, sceneMarkup(halvingsScene(plan, SIZE, speech)), words.captionHalvings)}
          ${presentedTable(speech, halvingsTable(plan, speech))}
          ${presentedTable(speech, gainingInputsTable(plan, speech))}
        </section>
        <section>
          <h2>${messages.sections.cautions}</h2>
          <ul class="cautions">
            ${[...safety.warnings, ...safety.cautions].map((text) => html`<li>${speech.translate(text)}</li>`)}
          </ul>
        </section>
        ${filesPart(messages, files)}`,
    },
    messages,
  );
}
