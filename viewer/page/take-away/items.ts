import { cellValues, csvText } from "../../present/csv.ts";
import { fileNameOf } from "../../present/file-name.ts";
import { fillText } from "../../present/fill.ts";
import { momentText } from "../../present/moment.ts";
import { picturePixels, pictureText } from "../draw/export-picture.ts";
import type { Frame } from "../draw/framed-picture.ts";
import { html, type Child } from "../draw/node.ts";
import { saveFile } from "../draw/save.ts";
import { rowsOf } from "../draw/table-rows.ts";
import { tableFile } from "../draw/table-file.ts";
import { speech, messages, words as pageWords } from "../language.ts";
import type { OtherFile } from "./other-file.ts";
import { shortDigest, shownNow, type TakenFrom } from "../draw/taken-from.ts";

/** Pictures narrower than this belong to a row of a table, not to themselves. */
const SMALLEST = 120;
const words = pageWords.takeAway;

/** A file in the making, with what the reader is told if it fails. */
type Making = (failed: string, make: () => void | Promise<void>) => () => Promise<void>;

/** What there is to take of a panel as it stands now, an element each. */
export function itemsOf(
  body: HTMLElement,
  id: string,
  title: string,
  others: readonly OtherFile[],
  say: (text: string) => void,
): HTMLElement[] {
  const pictures = [...body.querySelectorAll<SVGSVGElement>("svg[role=img]")].filter(
    (picture) => picture.viewBox.baseVal.width >= SMALLEST,
  );
  // The numbers behind a picture have a button of their own.
  const tables = [...body.querySelectorAll("table")].filter((table) => table.closest(".numbers-behind") === null);
  const making: Making = (failed, make) => async () => {
    try {
      await make();
      say("");
    } catch (error) {
      say(fillText(failed, { why: error instanceof Error ? error.message : String(error) }));
    }
  };
  const button = (key: string, label: string, what: string, act: () => Promise<void>): HTMLElement =>
    html(
      "button",
      {
        type: "button",
        class: "quiet small",
        id: `take-${id}-${key}`,
        "aria-label": fillText(words.of, { format: label, what }),
        onclick: () => void act(),
      },
      label,
    );
  const item = (what: string, buttons: Child): HTMLElement =>
    html("li", {}, html("span", {}, what), html("span", { class: "buttons" }, buttons));
  const from = shownNow();
  const fileName = (place: number, of: number, ending: string): string =>
    fileNameOf(
      from.title,
      from.startedAt,
      [from.measurand ?? "", title, of > 1 ? String(place + 1) : ""].join(" "),
      ending,
    );
  const named = (one: string, several: string, i: number, count: number, name: string): string =>
    fillText(count > 1 ? several : one, { n: String(i + 1), name });
  const items = [
    ...others.map(({ what, forms }, i) =>
      item(
        what,
        forms.map(({ label, from: source }, j) =>
          typeof source === "string"
            ? html(
                "a",
                {
                  class: "button-like small",
                  href: source,
                  download: "",
                  id: `take-${id}-file-${i}-${j}`,
                  "aria-label": fillText(words.of, { format: label, what }),
                },
                label,
              )
            : button(`file-${i}-${j}`, label, what, making(words.noFile, source)),
        ),
      ),
    ),
    ...pictures.map((picture, i) => {
      const caption = nameOf(picture.getAttribute("aria-label"));
      const what = named(words.picture, words.pictureOf, i, pictures.length, caption);
      const frame = frameOf(title, caption, from);
      const name = (ending: string): string => fileName(i, pictures.length, ending);
      return item(what, [
        button(
          `svg-${i}`,
          "SVG",
          what,
          making(words.noFile, () => saveFile(name("svg"), pictureText(picture, frame), "image/svg+xml")),
        ),
        button(
          `png-${i}`,
          "PNG",
          what,
          making(words.noPicture, async () => saveFile(name("png"), await picturePixels(picture, frame))),
        ),
      ]);
    }),
    ...tables.map((table, i) => {
      const caption = nameOf(table.caption?.textContent ?? table.getAttribute("aria-label"));
      const what = named(words.table, words.tableOf, i, tables.length, caption);
      const name = (ending: string): string => fileName(i, tables.length, ending);
      return item(what, [
        button(
          `csv-${i}`,
          "CSV",
          what,
          making(words.noFile, () =>
            saveFile(name("csv"), csvText(rowsOf(table), speech.numbers.decimalSign), "text/csv;charset=utf-8"),
          ),
        ),
        button(
          `xlsx-${i}`,
          "XLSX",
          what,
          making(words.noTable, async () =>
            saveFile(
              name("xlsx"),
              await tableFile(
                cellValues(rowsOf(table), speech.numbers.decimalSign),
                { table: title, about: words.aboutSheet },
                aboutRows(from),
              ),
            ),
          ),
        ),
      ]);
    }),
  ];
  return items.length > 0 ? items : [html("li", { class: "note" }, words.empty)];
}

/** The day of the run and its record, as far as they are known. */
function originOf(from: TakenFrom): { readonly day: string | null; readonly record: string | null } {
  const digest = shortDigest(from);
  return {
    day: from.startedAt === null ? null : momentText(from.startedAt, messages.language, true),
    record: digest === null ? null : fillText(from.startedAt === null ? words.survey : words.record, { digest }),
  };
}

function frameOf(title: string, caption: string, from: TakenFrom): Frame {
  const { day, record } = originOf(from);
  const foot = [from.title, from.measurand, day, record].filter((part) => part !== null && part !== "").join(" · ");
  return { title, caption, foot, legend: words.legend };
}

function aboutRows(from: TakenFrom): (readonly [string, string])[] {
  const { day } = originOf(from);
  const rows: readonly (readonly [string, string | null])[] = [
    [words.study, from.title],
    [words.quantity, from.measurand],
    [words.day, day],
    [words.digest, from.digest],
  ];
  return rows.filter((row): row is readonly [string, string] => row[1] !== null);
}

/** The beginning of a long name, up to its first stop. */
const nameOf = (name: string | null): string =>
  (name ?? words.unnamed)
    .split(/[.:;](?:\s|$)/)[0]!
    .replace(/\s+/g, " ")
    .trim();
