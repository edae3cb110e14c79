import type { RunRecord } from "../../../engine/index.ts";
import { symbolsOf } from "../../present/equation.ts";
import { en } from "../../present/messages/en/index.ts";
import { momentText } from "../../present/moment.ts";
import { commandLine, STUDY_FILE } from "../../present/command.ts";
import { html, type Child } from "../draw/node.ts";
import { fixed, whole } from "../../present/numbers.ts";
import { saveButton } from "../draw/save.ts";
import { equationNode } from "../draw/symbol.ts";
import type { Panel } from "./panel.ts";

/** Everything needed to draw the same trials again. */
export const provenance: Panel = {
  id: "provenance",
  title: en.panels.provenance,
  appliesTo: () => true,
  render(element, record, _measurand, { provisional, study }) {
    const { model, generator, trials, engine, environment } = record;
    const rows: [string, Child][] = [
      ["Model", [`${model.title} `, html("code", {}, model.id)]],
      ["Equation", model.equation === null ? "not stated" : equationNode(model.equation, symbolsOf(record))],
      ["Source of the model", model.source ?? html("span", { class: "source missing" }, "no source stated")],
      [
        "Trials",
        `${whole(trials.count)} in batches of ${whole(trials.batch)}; ${provisional ? "the run goes on" : en.provenance[trials.stop]}`,
      ],
      ["Seed", html("code", {}, generator.seed)],
      ["Generator", [`${generator.title} `, html("code", {}, generator.id)]],
      [
        "Exact reproduction",
        model.fixedBits
          ? "on any machine and any JavaScript engine"
          : "on the same version of the JavaScript engine only",
      ],
      ["Program", `${engine.name} ${engine.version}`],
    ];
    if (environment !== undefined) {
      rows.push([
        "This run",
        `${momentText(environment.startedAt, "en", true)}; ${fixed(environment.seconds, 1)} s with ${environment.workers} worker${environment.workers === 1 ? "" : "s"}; ${environment.runtime}`,
      ]);
    }
    element.replaceChildren(
      html(
        "dl",
        { class: "provenance" },
        rows.map(([term, value]) => html("div", {}, html("dt", {}, term), html("dd", {}, value))),
      ),
      provisional
        ? html("p", { class: "note" }, "The command that repeats this run stands here when it has finished.")
        : again(record, study),
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
          copied.textContent = "copied";
        } catch {
          copied.textContent = "the browser does not let this page copy: select the line instead";
        }
      },
    },
    "Copy the command",
  );
  return html(
    "div",
    { class: "again" },
    html(
      "p",
      {},
      study === null ? `To make them again, save the study as ${STUDY_FILE} and run beside it:` : "To make them again:",
    ),
    html(
      "pre",
      { class: "command", tabindex: 0, role: "region", "aria-label": "Command line", id: "command-line" },
      html("code", {}, line),
    ),
    html(
      "p",
      { class: "buttons" },
      copy,
      saveButton("save-study", "Save the study", STUDY_FILE, record.study),
      saveButton("save-record", "Save the record", "record.json", record),
      copied,
    ),
  );
}
