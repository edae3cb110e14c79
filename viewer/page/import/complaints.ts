import { words } from "../later-words.ts";
import { fillText } from "../../present/fill.ts";
import { counted } from "../counted.ts";
import type { TableReading } from "../../api/budget-tables.ts";
import { html } from "../draw/node.ts";
import type { SessionActions } from "./session.ts";
import { tableWords } from "./table-speech.ts";

export const complaintId = (row: number, column: string | null): string => `import-complaint-${row}-${column ?? "row"}`;
export const rowPickerId = (row: number): string => `import-row-${row}`;

/** Cells that cannot be used, each with what is expected and a field to say what the cell means. */
export const complaintsPart = ({ complaints }: TableReading, actions: SessionActions): HTMLElement[] =>
  complaints.length === 0
    ? []
    : [
        html(
          "section",
          { class: "panel import-complaints", "aria-labelledby": "import-complaints-title" },
          html("h2", { id: "import-complaints-title" }, counted(words.import.badCells, complaints.length)),
          html("p", { class: "note" }, words.import.badCellsHelp),
          html(
            "ul",
            { class: "import-list" },
            complaints.map((complaint) => html("li", {}, ...complaintLine(complaint, actions))),
          ),
        ),
      ];

function complaintLine(
  { place, value, accepted, row, column }: TableReading["complaints"][number],
  { state }: SessionActions,
): HTMLElement[] {
  const id = complaintId(row, column);
  const field = html("input", { type: "text", autocomplete: "off", id: `${id}-field`, spellcheck: "false" });
  const correct = (): void => {
    if (column !== null && field.value.trim() !== "") state({ cells: { [`${column}${row}`]: field.value.trim() } });
  };
  return [
    html(
      "p",
      { class: "field-problem", id },
      html("strong", {}, tableWords(place[0]!.toUpperCase() + place.slice(1))),
      fillText(words.import.found, { value, expected: tableWords(accepted) }),
    ),
    html(
      "p",
      { class: "buttons" },
      ...(column === null
        ? []
        : [
            html("label", { for: `${id}-field` }, fillText(words.import.readCell, { cell: column, row: String(row) })),
            field,
            html("button", { type: "button", class: "small", id: `${id}-read`, onclick: correct }, words.import.readSo),
          ]),
      html(
        "button",
        {
          type: "button",
          class: "small quiet",
          id: `${id}-leave-out`,
          onclick: () => state({ rows: { [String(row)]: { is: "left-out" } } }),
        },
        fillText(words.import.leaveOut, { row: String(row) }),
      ),
    ),
  ].map((element) => {
    if (element.contains(field)) field.addEventListener("keydown", (event) => event.key === "Enter" && correct());
    return element;
  });
}
