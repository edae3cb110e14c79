import { messages } from "./language.ts";
import type { Actions } from "./actions/index.ts";
import { html, type Child } from "./draw/node.ts";
import { plain, probabilityText, whole } from "../present/numbers.ts";
import { lacking } from "./permission.ts";
import { saveButton } from "./draw/save.ts";
import { words } from "../present/field-words.ts";
import { statementWords } from "../present/statement.ts";
import type { ChosenStudy } from "./shown.ts";

const textOr = (value: unknown, other: string): string => (typeof value === "string" && value !== "" ? value : other);

/** A study before it is run: what will be propagated, and the button that does it. */
export function studyView({ document, file }: ChosenStudy, busy: boolean, actions: Actions): HTMLElement[] {
  const inputs = Object.entries((document.inputs ?? {}) as Record<string, unknown>);
  const notes = textOr(document.notes, "");
  const laboratory = textOr(document.laboratory, "");
  return [
    html(
      "header",
      { class: "sheet-head" },
      html("p", { class: "kind" }, file === null ? "Study, not yet run" : `Study from the file ${file}, not yet run`),
      html("h1", { id: "sheet-title", tabindex: -1 }, textOr(document.title, "A study without a title")),
      laboratory === "" ? null : html("p", { class: "laboratory" }, laboratory),
      notes === "" ? null : html("p", { class: "notes" }, notes),
    ),
    html(
      "p",
      { class: "buttons" },
      html(
        "button",
        {
          type: "button",
          class: "main",
          id: "run",
          "data-needs": "run",
          disabled: busy,
          "aria-keyshortcuts": "Control+Enter",
          onclick: () => void actions.runChosen(),
        },
        busy ? "Starting…" : "Run this study",
      ),
      html(
        "span",
        { class: "note shortcut", "data-needs": "run" },
        "or press ",
        html("kbd", {}, "Ctrl"),
        " ",
        html("kbd", {}, "Enter"),
      ),
      html(
        "button",
        { type: "button", class: "quiet", id: "write-from", onclick: () => actions.write(document) },
        "Edit a copy",
      ),
      saveButton("save-chosen", "Save as a file", "study.json", document),
    ),
    lacking("run"),
    html(
      "section",
      { class: "panel" },
      html("h2", {}, "What will be done"),
      html(
        "dl",
        { class: "provenance" },
        facts(document).map(([term, value]) => html("div", {}, html("dt", {}, term), html("dd", {}, value))),
      ),
    ),
    knownSection(inputs),
  ];
}

const knownSection = (inputs: readonly (readonly [string, unknown])[]): HTMLElement =>
  html(
    "section",
    { class: "panel" },
    html("h2", {}, `What is known of ${inputs.length} input ${inputs.length === 1 ? "quantity" : "quantities"}`),
    html(
      "ul",
      { class: "known" },
      inputs.map(([name, statement]) => knownInput(name, statement)),
    ),
  );

function facts(document: Readonly<Record<string, unknown>>): [Child, Child][] {
  const coverage = (document.coverage ?? {}) as { probability?: unknown; factor?: unknown; interval?: unknown };
  const trials = document.trials ?? 1_000_000;
  const custom =
    typeof coverage.factor === "number"
      ? `fixed coverage factor k = ${plain(coverage.factor)}`
      : `coverage probability ${probabilityText(typeof coverage.probability === "number" ? coverage.probability : 0.95)}`;
  const limit = typeof document.maximumTrials === "number" ? `, ${whole(document.maximumTrials)} at most` : "";
  return [
    ["Model", html("code", {}, textOr(document.model, "none stated"))],
    [
      "Coverage",
      `${custom}; ${coverage.interval === "shortest" ? "shortest" : "probabilistically symmetric"} Monte Carlo interval`,
    ],
    [["Digits of ", html("var", {}, "u"), " held meaningful"], String(document.significantDigits ?? 2)],
    ["Trials", typeof trials === "number" ? whole(trials) : `as many as the figures need to settle${limit}`],
    ["Seed", html("code", {}, textOr(document.seed, "1"))],
  ];
}

/** One input as the study states it, whatever the kind of its distribution. */
function knownInput(name: string, statement: unknown): HTMLElement {
  const { source } = (statement ?? {}) as { readonly source?: unknown };
  return html(
    "li",
    {},
    html("strong", {}, words(name)),
    html("span", {}, statementWords(statement)),
    html(
      "span",
      { class: source === undefined ? "source missing" : "source" },
      textOr(source, messages.inputs.noSource),
    ),
  );
}
