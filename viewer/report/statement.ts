import { fieldUnits } from "../../engine/internal.ts";
import { joinerOf, statedFigures, type StatedFigure } from "../present/statement.ts";
import { html, type Markup } from "./markup.ts";
import { letter, type Report } from "./report.ts";

/** The figures of a statement as the study gives them, each with its name and unit. */
export const statedMarkup = (
  report: Report,
  statement: Readonly<Record<string, unknown>>,
  unit: string,
): readonly Markup[] => statedFigures(statement, unit, fieldUnits, report).map(figureOf);

function figureOf(figure: StatedFigure): Markup {
  const { label, kind, text } = figure;
  const name = kind === "letter" ? letter(label) : kind === "word" ? html`${label}` : html`<code>${label}</code>`;
  return html`<span class="stated-figure">${name}${joinerOf(figure)}${text}</span>`;
}
