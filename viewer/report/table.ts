import { html, type Child, type Markup } from "./markup.ts";
import type { Messages } from "../present/messages/messages.ts";
import type { Cell, Row, Table } from "../present/tables/table.ts";
import { sceneMarkup } from "./draw/scene.ts";
import { labelMarkup } from "./symbol.ts";

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
  /** Rows under a head of their own, below the others. */
  readonly below?: { readonly head: Child; readonly rows: readonly (readonly Child[])[] };
  /** Rows set apart below the others. */
  readonly total?: readonly (readonly Child[])[];
  readonly name?: string;
}

/** A table whose first column heads its rows, its number columns lined up on the decimal sign. */
export function tableMarkup(
  { messages, decimalSign }: { readonly messages: Messages; readonly decimalSign: string },
  { caption, columns, rows, below, total = [], name = "" }: TableContent,
): Markup {
  const all = [...rows, ...(below?.rows ?? []), ...total];
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
      below === undefined
        ? null
        : html`<tbody>
            <tr>
              <th scope="colgroup" colspan="${columns.length}" class="between">${below.head}</th>
            </tr>
            ${below.rows.map(row)}
          </tbody>`
    }
    ${
      total.length === 0
        ? null
        : html`<tbody class="total">
            ${total.map(row)}
          </tbody>`
    }
  </table>`;
}

/** A table of viewer/present as markup of a report. */
export function presentedTable(
  { messages, numbers }: { readonly messages: Messages; readonly numbers: { readonly decimalSign: string } },
  { caption, columns, rows, below, total = [] }: Table,
  name = "",
): Markup {
  const cell = (of: Cell): Child => {
    if (typeof of === "string") return of;
    const { text, note, picture } = of;
    if (note === undefined && picture === undefined) return text;
    return html`${text}${note === undefined ? null : html` <span class="fine">${note}</span>`}${picture === undefined ? null : sceneMarkup(picture)}`;
  };
  const head = ({ head: label, note, part }: Row): Child =>
    part === true
      ? html`<span class="part">${labelMarkup(label)}</span>`
      : note === undefined
        ? labelMarkup(label)
        : html`${labelMarkup(label)} <span class="fine">${labelMarkup(note)}</span>`;
  const cells = (of: readonly Row[]): Child[][] => of.map((row) => [head(row), ...row.cells.map(cell)]);
  return tableMarkup(
    { messages, decimalSign: numbers.decimalSign },
    {
      name,
      caption: labelMarkup(caption),
      columns: columns.map(({ head: label, kind }) => ({ head: labelMarkup(label), kind })),
      rows: cells(rows),
      ...(below === undefined ? {} : { below: { head: labelMarkup(below.head), rows: cells(below.rows) } }),
      total: cells(total),
    },
  );
}

const isNumber = (cell: Child): cell is string => typeof cell === "string" && /^[−+<>\s\u00a0]*[\d\u202f]+/.test(cell);

/** Characters from the decimal sign on. */
function tailOf(cell: Child, decimalSign: string): number {
  if (!isNumber(cell)) return 0;
  const figures = /^[^×%]*/.exec(cell)![0].trimEnd();
  const at = figures.indexOf(decimalSign);
  return at < 0 ? 0 : figures.length - at;
}
