import type { Evidence, ReportedRecord } from "../../engine/index.ts";
import type { Capability } from "../../models/index.ts";
import type { Messages } from "../present/messages/messages.ts";
import { speechOf } from "../present/speech-of.ts";
import { capabilityPointsTable, capabilityScene, capabilityTable, fluidsTable } from "../present/tables/capability.ts";
import { WIDE, sceneMarkup } from "./draw/scene.ts";
import { html, type Child } from "./markup.ts";
import type { Paper } from "./report-html.ts";
import { presentedTable } from "./table.ts";
import { figureOf, filesPart, headOfRun, titledDocument } from "./titled-document.ts";

export interface ReportedCapability {
  readonly capability: Capability;
  readonly record: ReportedRecord;
  readonly digest: string;
  readonly files: Evidence["files"];
}

/** A laboratory's capability as one HTML document: the claim, its picture, every point, fluids, cautions. */
export function capabilityHtml(
  { capability, record, digest, files }: ReportedCapability,
  messages: Messages,
  paper: Paper | null = null,
): string {
  const speech = speechOf(messages);
  const words = messages.capability;
  const all = (pick: (safety: Capability["ranges"][number]["safety"]) => readonly string[]): readonly string[] => [
    ...new Set(capability.ranges.flatMap(({ safety }) => pick(safety))),
  ];
  const list = (items: readonly string[]): Child =>
    html`<ul class="cautions">
      ${items.map((item) => html`<li>${speech.translate(item)}</li>`)}
    </ul>`;
  const warnings = all((safety) => safety.warnings);
  return titledDocument(
    {
      kind: words.kind,
      title: record.study.title,
      ...headOfRun(record, digest, messages),
      main: html`<section>
          ${presentedTable(speech, capabilityTable(capability, speech))}
          <p>${words.rule}</p>
          ${figureOf(
            messages,
            sceneMarkup(capabilityScene(capability, { width: WIDE, height: 200 }, speech)),
            words.pictureCaption,
          )}
        </section>
        <section>
          ${capability.ranges.map((range) => presentedTable(speech, capabilityPointsTable(capability, range, speech)))}
        </section>
        <section>
          <h2>${words.safety}</h2>
          ${presentedTable(speech, fluidsTable(capability, speech))}
          ${
            warnings.length === 0
              ? null
              : html`<h3>${words.warnings}</h3>
                  ${list(warnings)}`
          }
          <h3>${messages.sections.cautions}</h3>
          ${list(all((safety) => safety.cautions))}
        </section>
        ${filesPart(messages, files)}`,
      paper,
    },
    messages,
  );
}
