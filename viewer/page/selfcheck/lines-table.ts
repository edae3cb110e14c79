import { messages } from "../language.ts";
import { words as pageWords } from "../later-words.ts";
import { withCheckUnit } from "../../present/selfcheck.ts";
import { html, type Child } from "../draw/node.ts";
import type { CheckLine } from "../../api/selfcheck.ts";
import type { CheckSpeech } from "./check-speech.ts";

const words = messages.selfcheck;

/** Pass or fail: a mark and a word, so that neither colour nor a font's glyphs are needed. */
const outcome = (passed: boolean): HTMLElement =>
  html(
    "td",
    { class: "outcome", role: "cell" },
    html("span", { "aria-hidden": "true" }, passed ? "✓ " : "✗ "),
    passed ? pageWords.selfcheck.pass : pageWords.selfcheck.fail,
  );

/** The row of a line; before it one for its source, if that differs from the source of the row before. */
export function rowsOf(
  said: CheckSpeech,
  { what, source, unit, tolerance, passed, shown }: CheckLine,
  before: string | null,
): HTMLTableRowElement[] {
  const cell = (label: string, figures: string): HTMLElement =>
    html(
      "td",
      { "data-label": label, role: "cell" },
      said.figures(figures, (figure) => withCheckUnit(figure, unit)),
    );
  const row = html(
    "tr",
    { class: passed ? null : "failed", role: "row" },
    outcome(passed),
    html("th", { scope: "row", role: "rowheader" }, said.text(what)),
    cell(words.published, shown.published),
    cell(words.obtained, shown.obtained),
    html(
      "td",
      { "data-label": words.tolerance, role: "cell" },
      said.text(shown.tolerance),
      html("span", { class: "basis" }, said.text(tolerance.basis)),
    ),
  );
  if (source === before) return [row];
  return [
    html(
      "tr",
      { class: "of-source", role: "row" },
      html("th", { colspan: 5, scope: "colgroup", role: "columnheader" }, sourceNodes(said.source(source))),
    ),
    row,
  ];
}

/** "Source: …" about what is set, which may be marked as English. */
function sourceNodes(source: Child): Child {
  const [before, after] = words.source.split("{source}") as [string, string];
  return [before, source, after];
}

/** An empty table for lines; `caption` is for those who hear it. */
export const linesTable = (
  caption: string,
): { readonly table: HTMLTableElement; readonly body: HTMLTableSectionElement } => {
  const body = html("tbody", { role: "rowgroup" });
  const heads = [words.outcome, words.what, words.published, words.obtained, words.tolerance];
  return {
    body,
    table: html(
      "table",
      { class: "check-lines", role: "table", "aria-label": caption },
      html(
        "thead",
        { role: "rowgroup" },
        html(
          "tr",
          { role: "row" },
          heads.map((head) => html("th", { scope: "col", role: "columnheader" }, head)),
        ),
      ),
      body,
    ),
  };
};
