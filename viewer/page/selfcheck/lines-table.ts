import { fillText } from "../../present/fill.ts";
import { messages } from "../language.ts";
import { words as pageWords } from "../later-words.ts";
import { withCheckUnit } from "../../present/selfcheck.ts";
import { html } from "../draw/node.ts";
import type { CheckLine } from "../../api/selfcheck.ts";

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
  { what, source, unit, tolerance, passed, shown }: CheckLine,
  before: string | null,
): HTMLTableRowElement[] {
  const cell = (label: string, text: string): HTMLElement => html("td", { "data-label": label, role: "cell" }, text);
  const row = html(
    "tr",
    { class: passed ? null : "failed", role: "row" },
    outcome(passed),
    html("th", { scope: "row", role: "rowheader" }, what),
    cell("published", withCheckUnit(shown.published, unit)),
    cell("obtained", withCheckUnit(shown.obtained, unit)),
    html(
      "td",
      { "data-label": "tolerance", role: "cell" },
      shown.tolerance,
      html("span", { class: "basis" }, tolerance.basis),
    ),
  );
  if (source === before) return [row];
  return [
    html(
      "tr",
      { class: "of-source", role: "row" },
      html("th", { colspan: 5, scope: "colgroup", role: "columnheader" }, fillText(words.source, { source })),
    ),
    row,
  ];
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
