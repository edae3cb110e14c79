import { words as pageWords } from "../later-words.ts";
import { fillText } from "../../present/fill.ts";
import { html } from "../draw/node.ts";
import type { TableHost } from "./table-host.ts";
import { howOf } from "./hows.ts";
import { howOptions } from "./table-cells.ts";
import { rowPart, statementOf, BLANK_ROW, type Row } from "./row.ts";
import { COLUMNS } from "./columns.ts";
import { numberOr } from "./typed.ts";

interface Part {
  readonly weight: string;
  readonly row: Row;
}

/** The parts of a mixture as they are kept, in the study's own form. */
function partsIn(text: string): Part[] {
  let stated: unknown;
  try {
    stated = JSON.parse(text === "" ? "[]" : text);
  } catch {
    return [];
  }
  return (
    Array.isArray(stated) ? (stated as { weight?: unknown; statement?: Readonly<Record<string, unknown>> }[]) : []
  ).map(({ weight, statement }) => ({
    weight: weight === undefined ? "" : String(weight),
    row: { ...BLANK_ROW, ...rowPart(statement ?? {}) },
  }));
}

/**
 * The parts of a mixture: a weight each, and what the quantity is if that part is the case.
 *
 * @param change takes the parts as the study keeps them
 */
export function mixtureFields(
  text: string,
  place: string,
  host: TableHost,
  change: (text: string) => void,
): HTMLElement {
  let parts = partsIn(text);
  if (parts.length === 0) parts = [1, 2].map(() => ({ weight: "0.5", row: BLANK_ROW }));
  const rows = html("tbody");
  const message = html("span", { class: "field-problem" });
  const keep = (): void =>
    change(
      JSON.stringify(
        parts.map(({ weight, row }) => ({ weight: numberOr(weight), statement: statementOf(row, host.kinds()) })),
      ),
    );
  const set = (i: number, part: Partial<Part>): void => {
    parts = parts.map((one, at) => (at === i ? { ...one, ...part } : one));
    keep();
  };
  const cells = COLUMNS.filter(({ name }) => ["how", "value", "first", "second", "nu"].includes(name)).toSorted((a) =>
    a.name === "how" ? -1 : 0,
  );
  const draw = (): void => {
    rows.replaceChildren(
      ...parts.map((part, i) =>
        html(
          "tr",
          {},
          html(
            "td",
            {},
            cell("weight", fillText(pageWords.studyTable.weightOf, { n: String(i + 1) }), part.weight, (weight) =>
              set(i, { weight }),
            ),
          ),
          cells.map((column) => {
            if (column.name === "how") {
              const select = html(
                "select",
                { "aria-label": fillText(pageWords.studyTable.howOf, { n: String(i + 1) }) },
                howOptions(false, host.kinds()),
              );
              select.value = part.row.how;
              select.addEventListener("change", () => {
                set(i, { row: column.set(parts[i]!.row, select.value) });
                draw();
              });
              return html("td", {}, select);
            }
            const asked = howOf(part.row.how)?.[column.name as "value"];
            return html(
              "td",
              {},
              asked === undefined
                ? null
                : cell(
                    asked.short,
                    fillText(pageWords.studyTable.ofPart, { what: asked.words, n: String(i + 1) }),
                    column.get(part.row),
                    (typed) => set(i, { row: column.set(parts[i]!.row, typed) }),
                  ),
            );
          }),
          html(
            "td",
            {},
            html(
              "button",
              {
                type: "button",
                class: "quiet small",
                "aria-label": fillText(pageWords.studyTable.removePart, { n: String(i + 1) }),
                onclick: () => {
                  parts = parts.filter((_, at) => at !== i);
                  keep();
                  draw();
                },
              },
              pageWords.library.remove,
            ),
          ),
        ),
      ),
    );
  };
  const add = html(
    "button",
    {
      type: "button",
      class: "quiet small",
      onclick: () => {
        parts = [...parts, { weight: "", row: BLANK_ROW }];
        keep();
        draw();
      },
    },
    pageWords.studyTable.addPart,
  );
  host.spots.set(`${place}.components`, {
    place: `${place}.components`,
    name: pageWords.studyLacks.mixture,
    control: add,
    message,
  });
  draw();
  return html(
    "div",
    { class: "wide-part" },
    html(
      "table",
      { class: "plain" },
      html("caption", {}, pageWords.studyTable.parts),
      html(
        "thead",
        {},
        html(
          "tr",
          {},
          [
            pageWords.studyTable.weight,
            pageWords.studyTable.columns.how,
            pageWords.studyTable.columns.value,
            pageWords.studyTable.columns.figure,
            pageWords.studyTable.columns.with,
            "ν",
            "",
          ].map((head) => html("th", { scope: "col" }, head)),
        ),
      ),
      rows,
    ),
    message,
    html("p", { class: "buttons" }, add),
  );
}

function cell(short: string, words: string, value: string, change: (text: string) => void): HTMLInputElement {
  const input = html("input", {
    type: "text",
    autocomplete: "off",
    placeholder: short,
    "aria-label": words,
    class: "figure",
  });
  input.value = value;
  input.addEventListener("input", () => change(input.value));
  return input;
}
