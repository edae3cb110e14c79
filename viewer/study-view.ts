import type { Actions } from "./actions.ts";
import { html, type Child } from "./draw/node.ts";
import { probabilityText, whole } from "./draw/numbers.ts";
import { plain } from "./draw/statement.ts";
import type { ChosenStudy } from "./state.ts";

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
        { type: "button", class: "main", id: "run", disabled: busy, "aria-keyshortcuts": "Control+Enter", onclick: () => void actions.runChosen() },
        busy ? "Starting…" : "Run this study",
      ),
      html("span", { class: "note shortcut" }, "or press ", html("kbd", {}, "Ctrl"), " ", html("kbd", {}, "Enter")),
    ),
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
    html(
      "section",
      { class: "panel" },
      html("h2", {}, `What is known of ${inputs.length} input ${inputs.length === 1 ? "quantity" : "quantities"}`),
      html("ul", { class: "known" }, inputs.map(([name, statement]) => knownInput(name, statement))),
    ),
  ];
}

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
    ["Coverage", `${custom}; ${coverage.interval === "shortest" ? "shortest" : "probabilistically symmetric"} Monte Carlo interval`],
    [["Digits of ", html("var", {}, "u"), " held meaningful"], String(document.significantDigits ?? 2)],
    ["Trials", typeof trials === "number" ? whole(trials) : `as many as the figures need to settle${limit}`],
    ["Seed", html("code", {}, textOr(document.seed, "1"))],
  ];
}

/** One input as the study states it, whatever the kind of its distribution. */
function knownInput(name: string, statement: unknown): HTMLElement {
  const { distribution, source, ...rest } = (statement ?? {}) as Record<string, unknown>;
  const figures = Object.entries(rest).map(([field, value]) => (Array.isArray(value) ? listed(field, value) : `${words(field)} ${figure(value)}`));
  return html(
    "li",
    {},
    html("strong", {}, words(name)),
    html("span", {}, `${textOr(distribution, "no distribution stated")}: ${figures.join(", ")}`),
    html("span", { class: source === undefined ? "source missing" : "source" }, textOr(source, "no source stated")),
  );
}

/** A field's name in words: "halfWidth" reads "half width". */
const words = (name: string): string => name.replace(/([a-z])([A-Z])/g, (_, before: string, after: string) => `${before} ${after.toLowerCase()}`);

const figure = (value: unknown): string =>
  typeof value === "number" ? plain(value) : typeof value === "string" ? value : JSON.stringify(value);

/** A list by its length and, where it holds numbers, its extremes. */
function listed(field: string, values: readonly unknown[]): string {
  const numbers = values.filter((item): item is number => typeof item === "number");
  const extremes = numbers.length === 0 || numbers.length < values.length ? "" : ` from ${plain(Math.min(...numbers))} to ${plain(Math.max(...numbers))}`;
  return `${values.length} ${words(field)}${extremes}`;
}
