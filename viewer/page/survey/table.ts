import { labelText } from "../../present/pictures/label.ts";
import { textOfCell, type Table } from "../../present/tables/table.ts";
import { html, type Child } from "../draw/node.ts";
import { labelNodes } from "../draw/symbol.ts";

/** A column of a survey's table. */
export interface Column {
  readonly head: string;
  /** Figures stand flush right; words wrap and take a line of their own if the page is narrow, a single word does not. */
  readonly kind: "figure" | "word" | "words";
}

/** A table whose rows become small lists, with the heads as labels, if the page is narrow. */
export const surveyTable = (
  id: string,
  caption: Child,
  columns: readonly Column[],
  rows: readonly (readonly Child[])[],
): HTMLElement =>
  html(
    "table",
    { class: "plain stacking", id, role: "table" },
    html("caption", {}, caption),
    html(
      "thead",
      { role: "rowgroup" },
      html(
        "tr",
        { role: "row" },
        columns.map(({ head, kind }) => html("th", { scope: "col", role: "columnheader", class: kind }, head)),
      ),
    ),
    html(
      "tbody",
      { role: "rowgroup" },
      rows.map((cells) =>
        html(
          "tr",
          { role: "row" },
          cells.map((cell, i) =>
            i === 0
              ? html("th", { scope: "row", role: "rowheader" }, cell)
              : html("td", { role: "cell", class: columns[i]!.kind, "data-label": columns[i]!.head }, cell),
          ),
        ),
      ),
    ),
  );

/** A table of viewer/present whose rows become small lists where the page is narrow. */
export const stackingTable = (id: string, { caption, columns, rows }: Table): HTMLElement =>
  surveyTable(
    id,
    labelNodes(caption),
    columns.map(({ head, kind }, i) => ({
      head: labelText(head),
      kind: i > 0 && kind === "number" ? "figure" : "words",
    })),
    rows.map(({ head, cells }) => [labelNodes(head), ...cells.map(textOfCell)]),
  );
