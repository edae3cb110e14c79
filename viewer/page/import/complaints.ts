import type { TableReading } from "../../api/budget-tables.ts";
import { html } from "../draw/node.ts";
import type { SessionActions } from "./session.ts";

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
          html(
            "h2",
            { id: "import-complaints-title" },
            complaints.length === 1 ? "One cell cannot be used" : `${complaints.length} cells cannot be used`,
          ),
          html(
            "p",
            { class: "note" },
            "Say what the cell means, or leave its row out. The file itself stays as it is.",
          ),
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
      html("strong", {}, place[0]!.toUpperCase() + place.slice(1)),
      `: found ${value}; expected ${accepted}.`,
    ),
    html(
      "p",
      { class: "buttons" },
      ...(column === null
        ? []
        : [
            html("label", { for: `${id}-field` }, `Read cell ${column}${row} as`),
            field,
            html("button", { type: "button", class: "small", id: `${id}-read`, onclick: correct }, "Read it so"),
          ]),
      html(
        "button",
        {
          type: "button",
          class: "small quiet",
          id: `${id}-leave-out`,
          onclick: () => state({ rows: { [String(row)]: { is: "left-out" } } }),
        },
        `Leave row ${row} out`,
      ),
    ),
  ].map((element) => {
    if (element.contains(field)) field.addEventListener("keydown", (event) => event.key === "Enter" && correct());
    return element;
  });
}
