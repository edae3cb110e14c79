import { cellsOf, csvText } from "../present/csv.ts";
import { picturePixels, pictureText } from "./draw/export-picture.ts";
import { html, type Child } from "./draw/node.ts";
import { saveFile } from "./draw/save.ts";

/** Pictures narrower than this belong to a row of a table, not to themselves. */
const SMALLEST = 120;

/**
 * The pictures and tables of a panel as files, folded away. What there is to take is looked up when the reader opens
 * it, so that it is what the panel shows then.
 */
export function takeAway(body: HTMLElement, id: string, title: string): HTMLElement {
  const list = html("ul", {});
  const said = html("span", { class: "note", role: "status" });
  const details = html(
    "details",
    { class: "take-away", id: `take-${id}` },
    html("summary", { id: `take-${id}-summary`, "aria-label": `Download: ${title}` }, "Download"),
    list,
    said,
  );
  details.addEventListener("toggle", () => {
    said.textContent = "";
    if (details.open) list.replaceChildren(...itemsOf(body, id, (words) => (said.textContent = words)));
  });
  return details;
}

function itemsOf(body: HTMLElement, id: string, say: (words: string) => void): HTMLElement[] {
  const pictures = [...body.querySelectorAll<SVGSVGElement>("svg[role=img]")].filter(
    (picture) => picture.viewBox.baseVal.width >= SMALLEST,
  );
  // The numbers behind a picture have a button of their own.
  const tables = [...body.querySelectorAll("table")].filter((table) => table.closest(".numbers-behind") === null);
  const button = (key: string, label: string, what: string, act: () => void | Promise<void>): HTMLElement =>
    html(
      "button",
      {
        type: "button",
        class: "quiet small",
        id: `take-${id}-${key}`,
        "aria-label": `${label} of ${what}`,
        onclick: () => void act(),
      },
      label,
    );
  const item = (what: string, buttons: Child): HTMLElement =>
    html("li", {}, html("span", {}, what), html("span", { class: "buttons" }, buttons));
  const nameFor = (place: number, of: number, kind: string): string => `${id}${of > 1 ? `-${place + 1}` : ""}.${kind}`;
  const items = [
    ...pictures.map((picture, i) => {
      const what = `picture${pictures.length > 1 ? ` ${i + 1}` : ""}: ${nameOf(picture.getAttribute("aria-label"))}`;
      return item(what, [
        button(`svg-${i}`, "SVG", what, () =>
          saveFile(nameFor(i, pictures.length, "svg"), pictureText(picture), "image/svg+xml"),
        ),
        button(`png-${i}`, "PNG", what, async () => {
          try {
            saveFile(nameFor(i, pictures.length, "png"), await picturePixels(picture));
          } catch (error) {
            say(
              `The picture could not be made: ${error instanceof Error ? error.message : String(error)}. Take the SVG instead.`,
            );
          }
        }),
      ]);
    }),
    ...tables.map((table, i) => {
      const what = `table${tables.length > 1 ? ` ${i + 1}` : ""}: ${nameOf(table.caption?.textContent ?? table.getAttribute("aria-label"))}`;
      return item(
        what,
        button(`csv-${i}`, "CSV", what, () =>
          saveFile(nameFor(i, tables.length, "csv"), csvText(cellsOf(table)), "text/csv;charset=utf-8"),
        ),
      );
    }),
  ];
  return items.length > 0 ? items : [html("li", { class: "note" }, "There is no picture or table here now.")];
}

/** The beginning of a long name, up to its first stop. */
const nameOf = (name: string | null): string =>
  (name ?? "without a name")
    .split(/[.:;](?:\s|$)/)[0]!
    .replace(/\s+/g, " ")
    .trim();
