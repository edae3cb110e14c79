import { csvText } from "../../present/csv.ts";
import { fileNameOf } from "../../present/file-name.ts";
import { speech, messages } from "../language.ts";
import { labelText } from "../../present/pictures/label.ts";
import { fileRows, textOfCell, type Table } from "../../present/tables/table.ts";
import { html } from "./node.ts";
import { saveFile } from "./save.ts";
import { shownNow } from "./taken-from.ts";

const panelTitle = (within: Element): string => within.closest(".panel")?.querySelector("h2")?.textContent ?? "";

/**
 * The numbers behind a picture, folded away: built when a reader opens it. `owner` remembers across redraws that it
 * is open.
 */
export function numbersBehind(owner: HTMLElement, id: string, make: () => Table): HTMLDetailsElement {
  const key = `open${id.replace(/-./g, (part) => part[1]!.toUpperCase())}`;
  const details = html(
    "details",
    { class: "numbers-behind", id: `${id}-fold` },
    html("summary", { id: `${id}-summary` }, messages.numbersBehind.open),
  );
  const fill = (): void => {
    if (!details.open) {
      delete owner.dataset[key];
      return;
    }
    owner.dataset[key] = "yes";
    if (details.querySelector("table") !== null) return;
    const table = make();
    const caption = labelText(table.caption);
    const heads = table.columns.map(({ head }) => labelText(head));
    const rows = table.rows.map(({ head, cells }) => [labelText(head), ...cells.map(textOfCell)]);
    details.append(
      html(
        "div",
        { class: "scroll", tabindex: 0, role: "region", "aria-label": caption, id: `${id}-scroll` },
        html(
          "table",
          { class: "plain" },
          html("caption", {}, caption),
          html(
            "thead",
            {},
            html(
              "tr",
              {},
              heads.map((head) => html("th", { scope: "col" }, head)),
            ),
          ),
          html(
            "tbody",
            {},
            rows.map((row) =>
              html(
                "tr",
                {},
                row.map((cell) => html("td", {}, cell)),
              ),
            ),
          ),
        ),
      ),
      html(
        "p",
        { class: "buttons" },
        html(
          "button",
          {
            type: "button",
            class: "quiet small",
            id: `${id}-csv`,
            onclick: () => {
              const { title, startedAt, measurand } = shownNow();
              saveFile(
                fileNameOf(
                  title,
                  startedAt,
                  [measurand ?? "", messages.numbersBehind.file, panelTitle(owner)].join(" "),
                  "csv",
                ),
                csvText(fileRows(table), speech.numbers.decimalSign),
                "text/csv;charset=utf-8",
              );
            },
          },
          messages.numbersBehind.save,
        ),
      ),
    );
  };
  details.addEventListener("toggle", fill);
  if (owner.dataset[key] === "yes") {
    details.open = true;
    fill();
  }
  return details;
}
