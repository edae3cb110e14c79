import { speech } from "../language.ts";
import { missingPlaces } from "../../present/entries.ts";
import { labelText } from "../../present/pictures/label.ts";
import type { Cell, Column, Row, Table } from "../../present/tables/table.ts";
import { textOfCell } from "../../present/tables/table.ts";
import { html, type Child } from "./node.ts";
import { sceneNode } from "./scene.ts";
import { swatch } from "./swatch.ts";
import { labelNodes } from "./symbol.ts";

const isNumber = (text: string): boolean => /^[−+<>\s\u00a0]*\d/.test(text);

/** A table of viewer/present as an element of the page: numbers on their decimal signs, each method with its sample. */
export function tableNode(
  { caption, columns, rows, below, total = [] }: Table,
  id: string,
  className = "",
): HTMLElement {
  const body = (these: readonly Row[], head: Child = null, kind: string | null = null): HTMLElement => {
    const missing = columns.slice(1).map((column, j) => {
      const texts = these.map((row) => textOfCell(row.cells[j]!));
      return column.kind === "number"
        ? missingPlaces(
            texts.map((text) => (isNumber(text) ? text : "")),
            speech.numbers,
          )
        : [];
    });
    return html(
      "tbody",
      { class: kind },
      head,
      these.map((row, i) =>
        html(
          "tr",
          { class: row.asked === true ? "asked" : row.part === true ? "part" : null },
          html(
            "th",
            { scope: "row" },
            labelNodes(row.head),
            row.note === undefined ? null : html("span", { class: "source" }, labelNodes(row.note)),
          ),
          row.cells.map((cell, j) => cellNode(cell, columns[j + 1]!, missing[j]?.[i] ?? "")),
        ),
      ),
    );
  };
  return html(
    "table",
    { class: `plain ${className}`.trimEnd(), id },
    html("caption", {}, labelNodes(caption)),
    html(
      "thead",
      {},
      html(
        "tr",
        {},
        columns.map(({ head, method, kind }) =>
          // The corner of a matrix heads nothing.
          head === ""
            ? html("td", {})
            : html(
                "th",
                { scope: "col", class: kind === "text" ? "words" : null },
                method === undefined ? null : swatch(method),
                labelNodes(head),
              ),
        ),
      ),
    ),
    body(rows),
    below === undefined
      ? null
      : body(
          below.rows,
          html(
            "tr",
            { class: "between" },
            html("th", { scope: "colgroup", colspan: columns.length }, labelNodes(below.head)),
          ),
        ),
    total.length === 0 ? null : body(total, null, "total"),
  );
}

function cellNode(cell: Cell, { kind }: Column, missing: string): HTMLElement {
  const text = textOfCell(cell);
  const { note, picture, value } = typeof cell === "string" ? {} : cell;
  return html(
    "td",
    {
      class: picture !== undefined ? "of-index" : kind === "text" ? "words" : null,
      "data-value": value === undefined ? null : String(value),
    },
    picture === undefined ? null : sceneNode(picture),
    picture === undefined && kind === "number" && isNumber(text)
      ? html("span", { class: "digits", "data-missing": missing === "" ? null : missing }, text)
      : html("span", { class: "value" }, text),
    note === undefined ? null : html("span", { class: "source" }, note),
  );
}

/**
 * The same in a part that scrolls by itself if the page is narrow.
 *
 * @param of what the table is of, where the page has tables of several with one caption
 */
export const wideTable = (table: Table, id: string, of?: string): HTMLElement =>
  html(
    "div",
    {
      class: "wide-table",
      tabindex: 0,
      role: "region",
      "aria-label": of === undefined ? labelText(table.caption) : `${of}: ${labelText(table.caption)}`,
      id,
    },
    tableNode(table, `${id}-rows`),
  );
