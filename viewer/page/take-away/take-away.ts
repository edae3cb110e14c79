import { fillText } from "../../present/fill.ts";
import { html } from "../draw/node.ts";
import { words } from "../language.ts";
import type { OtherFile } from "./other-file.ts";

/**
 * The pictures and tables of a panel as files, folded away. What there is to take is looked up when the reader opens
 * it, so that it is what the panel shows then; the code that makes files is loaded then too.
 *
 * @param others what else there is to take here
 */
export function takeAway(
  body: HTMLElement,
  id: string,
  title: string,
  others: () => readonly OtherFile[] = () => [],
): HTMLElement {
  const list = html("ul", {});
  const said = html("span", { class: "note", role: "status" });
  const details = html(
    "details",
    { class: "take-away", id: `take-${id}` },
    html(
      "summary",
      { id: `take-${id}-summary`, "aria-label": fillText(words.takeAway.openOf, { title }) },
      words.takeAway.open,
    ),
    list,
    said,
  );
  details.addEventListener("toggle", () => {
    said.textContent = "";
    if (details.open) void show();
  });
  const show = async (): Promise<void> => {
    const { itemsOf } = await import("./items.ts");
    if (details.open) list.replaceChildren(...itemsOf(body, id, title, others(), (text) => (said.textContent = text)));
  };
  return details;
}
