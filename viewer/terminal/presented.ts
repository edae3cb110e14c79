import { labelText } from "../present/pictures/label.ts";
import { textOfCell, type Cell, type Row, type Table } from "../present/tables/table.ts";
import { tableLines, type Column } from "./table.ts";

/** A table of viewer/present as lines of at most `width` columns, without its fine rows and columns. */
export function presentedLines({ columns, rows, below, total = [] }: Table, width: number): string[] {
  const shown = columns.filter(({ fine }) => fine !== true);
  const cells = ({ head, note, part, cells: all }: Row): string[] => {
    const label =
      part === true
        ? `  ${labelText(head)}`
        : note === undefined
          ? labelText(head)
          : `${labelText(head)} (${labelText(note)})`;
    return [label, ...all.map(cellText).filter((_, j) => columns[j + 1]!.fine !== true)];
  };
  const align = (kind: (typeof columns)[number]["kind"], j: number): Column["align"] =>
    j === 0 || kind === "text" ? "left" : "point";
  return tableLines(
    shown.map(({ head, kind }, j) => ({ heading: labelText(head), align: align(kind, j) })),
    [...rows, ...(below?.rows ?? []), ...total].filter(({ fine }) => fine !== true).map(cells),
    width,
  );
}

const cellText = (cell: Cell): string => {
  const text = textOfCell(cell);
  return typeof cell === "string" || cell.note === undefined ? text : `${text} ${cell.note}`;
};
