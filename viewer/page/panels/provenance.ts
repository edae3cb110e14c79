import type { RunRecord } from "../../../engine/index.ts";
import { messages } from "../language.ts";
import { fillText } from "../../present/fill.ts";
import { momentText } from "../../present/moment.ts";
import { commandLine, STUDY_FILE } from "../../present/command.ts";
import { html, type Child } from "../draw/node.ts";
import { fixed, whole } from "../numbers.ts";
import { saveButton } from "../draw/save.ts";
import { recordEquation } from "../equation/typed-equation.ts";
import type { Panel } from "./panel.ts";

const words = messages.provenance;
const panelWords = messages.provenancePanel;

/** Everything needed to draw the same trials again. */
export const provenance: Panel = {
  id: "provenance",
  title: messages.panels.provenance,
  appliesTo: () => true,
  render(element, record, _measurand, { provisional, study, filed }) {
    const { model, generator, trials, engine, environment } = record;
    const rows: [string, Child][] = [
      [words.model, [`${model.title} `, html("code", {}, model.id)]],
      [messages.model.equation, model.equation === null ? panelWords.notStated : recordEquation(record)],
      [messages.model.source, model.source ?? html("span", { class: "source missing" }, messages.model.noSource)],
      [
        words.trials,
        fillText(words.trialsText, {
          count: whole(trials.count),
          batch: whole(trials.batch),
          stop: provisional ? panelWords.goesOn : words[trials.stop],
        }),
      ],
      [words.seed, html("code", {}, generator.seed)],
      [words.generator, [`${generator.title} `, html("code", {}, generator.id)]],
      [words.bits, model.fixedBits ? words.bitsAny : words.bitsOne],
      [words.engine, `${engine.name} ${engine.version}`],
    ];
    if (environment !== undefined) {
      rows.push(
        [
          words.started,
          fillText(words.startedText, {
            date: momentText(environment.startedAt, messages.language, true),
            seconds: fixed(environment.seconds, 1),
            workers: whole(environment.workers),
          }),
        ],
        [words.runtime, environment.runtime],
      );
    }
    element.replaceChildren(
      html(
        "dl",
        { class: "provenance" },
        rows.map(([term, value]) => html("div", {}, html("dt", {}, term), html("dd", {}, value))),
      ),
      provisional ? html("p", { class: "note" }, panelWords.later) : again(filed, study),
    );
  },
};

function again(record: RunRecord, study: string | null): HTMLElement {
  const line = commandLine(record, study);
  const copied = html("span", { class: "note", role: "status" });
  const copy = html(
    "button",
    {
      type: "button",
      class: "quiet",
      id: "copy-command",
      onclick: async () => {
        try {
          await navigator.clipboard.writeText(line);
          copied.textContent = panelWords.copied;
        } catch {
          copied.textContent = panelWords.notCopied;
        }
      },
    },
    panelWords.copy,
  );
  return html(
    "div",
    { class: "again" },
    html("p", {}, study === null ? fillText(panelWords.withFile, { file: STUDY_FILE }) : panelWords.with),
    html(
      "pre",
      { class: "command", tabindex: 0, role: "region", "aria-label": panelWords.command, id: "command-line" },
      html("code", {}, line),
    ),
    html(
      "p",
      { class: "buttons" },
      copy,
      saveButton("save-study", panelWords.saveStudy, STUDY_FILE, record.study),
      saveButton("save-record", panelWords.saveRecord, "record.json", record),
      copied,
    ),
  );
}
