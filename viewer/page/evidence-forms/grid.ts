import { fillText } from "../../present/fill.ts";
import { html } from "../draw/node.ts";
import { button, cell, input, redrawTyping } from "../evidence/field.ts";
import { words } from "../later-words.ts";

/** A column of a table to type into. */
export interface GridColumn {
  /** Part of the id of its cells. */
  readonly name: string;
  readonly head: string;
  /** Words or dates, which need more room than figures. */
  readonly wide?: boolean;
}

/** What a table to type into is of. Its rows are changed in place: text by the name of the column. */
export interface GridContent {
  readonly columns: readonly GridColumn[];
  readonly rows: Record<string, string>[];
}

/** Whether every cell of a row is empty. */
export const isBlankRow = (row: Readonly<Record<string, string>>): boolean =>
  Object.values(row).every((typed) => typed.trim() === "");

/** Cells of pasted text, a line a row: parted by tabs, or by semicolons if there are none. */
export function pastedCells(text: string): string[][] {
  const lines = text.replaceAll(/\r\n?/g, "\n").replace(/\n+$/, "").split("\n");
  const mark = lines.some((line) => line.includes("\t")) ? "\t" : ";";
  return lines
    .map((line) => line.split(mark).map((one) => one.trim()))
    .filter((cells) => cells.some((one) => one !== ""));
}

/** Whether a line of cells has words in the place of figures. */
export const isHeading = (cells: readonly string[]): boolean =>
  cells.some((one) => one !== "") && cells.every((one) => one === "" || !/^[−+\-\d.,]/.test(one));

/**
 * A table to type into, or to paste into from a spreadsheet: there is always an empty row at its end. Enter and the arrows
 * go from row to row.
 *
 * @param id begins the ids of its cells: `id-row-column`
 * @param headed told the headings of pasted cells, from the column they were pasted into on
 */
export function createGrid(
  id: string,
  label: string,
  content: () => GridContent,
  changed: () => void,
  headed: (headings: readonly string[], column: number) => void = () => undefined,
): { readonly element: HTMLElement; readonly draw: () => void } {
  const body = html("div", {
    class: "wide-table",
    tabindex: 0,
    role: "region",
    "aria-label": fillText(words.forms.tableOf, { name: label }),
  });
  const said = html("p", { class: "note", role: "status", id: `${id}-said` });
  const element = html(
    "div",
    {},
    html("span", { class: "field-problem", id: `${id}-problem` }),
    body,
    html("p", { class: "note" }, words.forms.gridHelp),
    said,
  );
  const at = (row: number, name: string): HTMLElement | null => document.getElementById(`${id}-${row}-${name}`);

  const trimmed = (): void => {
    const { rows } = content();
    while (rows.length > 1 && isBlankRow(rows.at(-1)!) && isBlankRow(rows.at(-2)!)) rows.pop();
    if (rows.length === 0 || !isBlankRow(rows.at(-1)!)) rows.push({});
  };

  const typed = (): void => {
    const before = content().rows.length;
    trimmed();
    if (content().rows.length !== before) draw();
    changed();
  };

  const paste = (text: string, row: number, column: number): void => {
    const lines = pastedCells(text);
    const heading = lines.length > 1 && isHeading(lines[0]!) ? lines.shift()! : null;
    const { rows } = content();
    if (heading !== null) headed(heading, column);
    const { columns } = content();
    let lost = 0;
    for (const [i, cells] of lines.entries()) {
      const target = (rows[row + i] ??= {});
      for (const [j, value] of cells.entries()) {
        const into = columns[column + j];
        if (into === undefined) lost += value === "" ? 0 : 1;
        else target[into.name] = value;
      }
    }
    trimmed();
    draw();
    said.textContent =
      fillText(words.forms.pasted, { count: String(lines.length) }) +
      (lost === 0 ? "" : ` ${fillText(words.forms.pastedLost, { count: String(lost) })}`);
    changed();
  };

  const moved = (event: KeyboardEvent, row: number, name: string): void => {
    const step = event.key === "ArrowDown" || event.key === "Enter" ? 1 : event.key === "ArrowUp" ? -1 : 0;
    const next = step === 0 ? null : at(row + step, name);
    if (next === null) return;
    event.preventDefault();
    next.focus();
    if (next instanceof HTMLInputElement) next.select();
  };

  const rowOf = (row: Record<string, string>, k: number, columns: readonly GridColumn[]): HTMLElement =>
    html(
      "tr",
      {},
      html("th", { scope: "row", class: "number" }, String(k + 1)),
      columns.map(({ name, head, wide = false }, j) => {
        const control = input(
          row[name] ?? "",
          (value) => {
            row[name] = value;
            typed();
          },
          wide ? {} : { class: "figure", inputmode: "decimal" },
        );
        control.addEventListener("keydown", (event) => moved(event, k, name));
        control.addEventListener("paste", (event) => {
          const text = event.clipboardData?.getData("text/plain") ?? "";
          if (!/[\t\n;]/.test(text.trim())) return;
          event.preventDefault();
          paste(text, k, j);
        });
        return cell(
          `${id}-${k}-${name}`,
          fillText(words.forms.cellName, { column: head, row: String(k + 1) }),
          control,
        );
      }),
      html(
        "td",
        {},
        isBlankRow(row)
          ? null
          : button(
              `${id}-${k}-remove`,
              "×",
              () => {
                content().rows.splice(k, 1);
                trimmed();
                draw();
                at(Math.min(k, content().rows.length - 1), columns[0]!.name)?.focus();
                changed();
              },
              { "aria-label": fillText(words.forms.removeRow, { row: String(k + 1) }), class: "quiet small" },
            ),
      ),
    );

  function draw(): void {
    trimmed();
    const { columns, rows } = content();
    redrawTyping(body, () =>
      body.replaceChildren(
        html(
          "table",
          { class: "plain typed-grid cells" },
          html(
            "thead",
            {},
            html(
              "tr",
              {},
              html("th", { scope: "col", class: "words" }, words.forms.row),
              columns.map(({ head }) => html("th", { scope: "col", class: "words" }, head)),
              html("td", {}),
            ),
          ),
          html(
            "tbody",
            {},
            rows.map((row, k) => rowOf(row, k, columns)),
          ),
        ),
      ),
    );
  }
  return { element, draw };
}
