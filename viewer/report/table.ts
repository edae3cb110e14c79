import { html, type Child, type Markup } from "./markup.ts";
import type { Messages } from "../present/messages/messages.ts";

/** A column: its head, and whether its cells are numbers that stand on their decimal sign. */
export interface Column {
  readonly head: Child;
  readonly kind: "head" | "text" | "number" | "after";
}

export interface TableContent {
  readonly caption: Child;
  readonly columns: readonly Column[];
  /** Cells of `number` columns are texts; a number there that has no decimal sign is lined up as one that ends before it. */
  readonly rows: readonly (readonly Child[])[];
  /** Rows set apart below the others. */
  readonly total?: readonly (readonly Child[])[];
  readonly name?: string;
}

/** A table whose first column heads its rows, its number columns lined up on the decimal sign. */
export function tableMarkup(
  { messages, decimalSign }: { readonly messages: Messages; readonly decimalSign: string },
  { caption, columns, rows, total = [], name = "" }: TableContent,
): Markup {
  const all = [...rows, ...total];
  const most = columns.map(({ kind }, j) =>
    kind === "number" ? Math.max(0, ...all.map((row) => tailOf(row[j]!, decimalSign))) : 0,
  );
  const cell = (child: Child, j: number): Markup => {
    const { kind } = columns[j]!;
    if (kind === "head") return html`<th scope="row">${child}</th>`;
    if (kind !== "number") return html`<td class="${kind}">${child}</td>`;
    const lacking = isNumber(child) ? most[j]! - tailOf(child, decimalSign) : 0;
    // The places that are lacking are there, unseen and outside the text, so that the rest lines up in any font.
    const pad =
      lacking === 0
        ? null
        : html`<span
            class="pad"
            data-pad="${lacking === most[j] ? decimalSign + "0".repeat(lacking - 1) : "0".repeat(lacking)}"
          ></span>`;
    return html`<td class="number">${child}${pad}</td>`;
  };
  const row = (cells: readonly Child[]): Markup =>
    html`<tr>
      ${cells.map(cell)}
    </tr>`;
  return html`<table class="${name}">
    <caption>
      <span class="label">${messages.table}</span>
      ${caption}
    </caption>
    <thead>
      <tr>
        ${columns.map(({ head, kind }) => html`<th scope="col" class="${kind}">${head}</th>`)}
      </tr>
    </thead>
    <tbody>
      ${rows.map(row)}
    </tbody>
    ${
      total.length === 0
        ? null
        : html`<tbody class="total">
            ${total.map(row)}
          </tbody>`
    }
  </table>`;
}

const isNumber = (cell: Child): cell is string => typeof cell === "string" && /^[−<>\s\u00a0]*[\d\u202f]+/.test(cell);

/** Characters from the decimal sign on. */
function tailOf(cell: Child, decimalSign: string): number {
  if (!isNumber(cell)) return 0;
  const figures = /^[^×%]*/.exec(cell)![0].trimEnd();
  const at = figures.indexOf(decimalSign);
  return at < 0 ? 0 : figures.length - at;
}
