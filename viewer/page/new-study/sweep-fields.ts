import { withinSentence } from "../field-name.ts";
import { words as pageWords } from "../later-words.ts";
import { fillText } from "../../present/fill.ts";
import { html, type Child } from "../draw/node.ts";
import { COLUMNS } from "./columns.ts";
import { idOf, labelled, textInput, type Spots } from "./controls.ts";
import type { ChangeDraft, Draft, PointDraft, SweepDraft } from "./draft.ts";
import type { Kind } from "./fields.ts";
import { howOf } from "./hows.ts";
import { BLANK_ROW, type Row } from "./row.ts";
import { howOptions } from "./table-cells.ts";

const NONE: SweepDraft = { quantity: "", unit: "", points: [] };

export const sweepWords = ({ sweep }: Draft): string =>
  sweep === null
    ? pageWords.studyForm.notAsked
    : fillText(sweep.quantity === "" ? pageWords.studyForm.sweep.points : pageWords.studyForm.sweep.pointsOf, {
        n: String(sweep.points.length),
        quantity: sweep.quantity,
      });

/**
 * The result over a range: at each point, the inputs that differ from the table's row.
 *
 * @param rows the rows of the table, by key, symbol and what is stated
 * @param change takes the whole, and the field that was typed into
 */
export function sweepFields(
  draft: Draft,
  rows: readonly Row[],
  kinds: readonly Kind[],
  spots: Spots,
  change: (sweep: SweepDraft | null, where: string) => void,
): HTMLElement {
  let sweep = draft.sweep;
  const points = html("div", {});
  const element = html("div", {});
  const set = (next: SweepDraft | null, where: string): void => {
    sweep = next;
    change(next, where);
  };
  const setPoint = (i: number, part: Partial<PointDraft>, where: string): void =>
    set(
      { ...sweep!, points: sweep!.points.map((one, at) => (at === i ? { ...one, ...part } : one)) },
      `sweep.${i}.${where}`,
    );
  const setChange = (i: number, j: number, next: ChangeDraft, where: string): void =>
    setPoint(i, { changes: sweep!.points[i]!.changes.map((one, at) => (at === j ? next : one)) }, `${j}.${where}`);
  const nameOf = (key: string): string => {
    const row = rows.find((one) => one.key === key);
    return row === undefined
      ? pageWords.studyForm.sweep.anInput
      : row.symbol || row.meaning || pageWords.studyForm.sweep.anInput;
  };
  const button = (id: string, words: string, act: () => void): HTMLElement =>
    html("button", { type: "button", class: "quiet small", id, onclick: act }, words);

  const draw = (): void => {
    for (const place of spots.keys()) if (place.startsWith("sweep")) spots.delete(place);
    if (sweep === null) {
      element.replaceChildren(
        html("p", { class: "note" }, pageWords.studyForm.sweep.about),
        html(
          "p",
          { class: "buttons" },
          button("add-sweep", pageWords.studyForm.sweep.state, () => {
            set({ ...NONE, points: [newPoint(), newPoint()] }, "");
            draw();
            document.getElementById("in-sweep-quantity")?.focus();
          }),
        ),
      );
      return;
    }
    const text = (name: "quantity" | "unit", label: string, help: string): HTMLElement =>
      labelled(
        {
          place: `sweep.${name}`,
          label,
          name: fillText(pageWords.studyForm.sweep.ofRange, { what: withinSentence(label) }),
          help,
        },
        textInput(sweep![name], (typed) => set({ ...sweep!, [name]: typed }, `sweep.${name}`)),
        spots,
      );
    points.replaceChildren(...sweep.points.map(pointOf));
    element.replaceChildren(
      html(
        "div",
        { class: "fields" },
        text("quantity", pageWords.studyForm.sweep.quantity, pageWords.studyForm.sweep.quantityHelp),
        text("unit", pageWords.studyForm.sweep.unit, ""),
      ),
      points,
      html(
        "p",
        { class: "buttons" },
        button("add-point", pageWords.studyForm.sweep.addPoint, () => {
          const last = sweep!.points.at(-1);
          // The same inputs differ at every point, most often.
          set({ ...sweep!, points: [...sweep!.points, { ...(last ?? newPoint()), at: "" }] }, "");
          draw();
          document.getElementById(idOf(`sweep.points.${sweep!.points.length - 1}.at`))?.focus();
        }),
        button("remove-sweep", pageWords.studyForm.sweep.none, () => {
          set(null, "");
          draw();
          document.getElementById("add-sweep")?.focus();
        }),
      ),
    );
  };

  const pointOf = ({ at, changes }: PointDraft, i: number): HTMLElement =>
    html(
      "fieldset",
      { class: "input-row" },
      html("legend", {}, fillText(pageWords.studyForm.sweep.point, { n: String(i + 1) })),
      html(
        "span",
        { class: "fields" },
        labelled(
          {
            place: `sweep.points.${i}.at`,
            label: pageWords.studyForm.sweep.at,
            name: fillText(pageWords.studyForm.sweep.saidPoint, { n: String(i + 1) }),
          },
          textInput(at, (typed) => setPoint(i, { at: typed }, "at"), { class: "figure" }),
          spots,
        ),
      ),
      changes.length === 0
        ? html("p", { class: "note" }, pageWords.studyForm.sweep.asAbove)
        : html(
            "table",
            { class: "entry points" },
            html("caption", { class: "unseen" }, fillText(pageWords.studyForm.sweep.differ, { n: String(i + 1) })),
            html(
              "thead",
              {},
              html(
                "tr",
                {},
                [
                  pageWords.studyForm.sweep.input,
                  pageWords.studyTable.columns.how,
                  pageWords.studyTable.columns.value,
                  pageWords.studyTable.columns.figure,
                  pageWords.studyTable.columns.with,
                  "ν",
                  pageWords.studyTable.columns.source,
                  "",
                ].map((head) =>
                  html(
                    "th",
                    { scope: "col" },
                    head === "" ? html("span", { class: "unseen" }, pageWords.library.remove) : head,
                  ),
                ),
              ),
            ),
            html(
              "tbody",
              {},
              changes.map((one, j) => changeOf(one, i, j)),
            ),
          ),
      html(
        "p",
        { class: "buttons" },
        button(`add-change-${i}`, pageWords.studyForm.sweep.addInput, () => {
          const taken = new Set(changes.map(({ key }) => key));
          const row = rows.find(({ key, how }) => how !== "" && !taken.has(key));
          if (row === undefined) return;
          setPoint(
            i,
            { changes: [...changes, { key: row.key, how: row.how, fields: row.fields, rest: row.rest }] },
            "",
          );
          draw();
          document.getElementById(`change-${i}-${changes.length}-key`)?.focus();
        }),
        sweep!.points.length > 2
          ? button(`remove-point-${i}`, fillText(pageWords.studyForm.sweep.removePoint, { n: String(i + 1) }), () => {
              set({ ...sweep!, points: sweep!.points.filter((_, index) => index !== i) }, "");
              draw();
              document.getElementById("add-point")?.focus();
            })
          : null,
      ),
    );

  const changeOf = (one: ChangeDraft, i: number, j: number): HTMLElement => {
    const row: Row = { ...BLANK_ROW, ...one };
    const place = `sweep.points.${i}.inputs.${one.key}`;
    const message = html("span", { class: "field-problem" });
    const where = fillText(pageWords.studyForm.sweep.inputOf, { j: String(j + 1), n: String(i + 1) });
    const listed = rows.filter(({ how }) => how !== "");
    const chooser = html(
      "select",
      {
        id: `change-${i}-${j}-key`,
        "aria-label": fillText(pageWords.studyForm.sweep.differing, { where }),
        "data-place": place,
      },
      (listed.some(({ key }) => key === one.key) ? listed : [...listed, row]).map(({ key }) =>
        html("option", { value: key, selected: key === one.key }, nameOf(key)),
      ),
    );
    chooser.addEventListener("change", () => {
      const chosen = rows.find(({ key }) => key === chooser.value)!;
      setChange(i, j, { key: chosen.key, how: chosen.how, fields: chosen.fields, rest: chosen.rest }, "");
      draw();
      document.getElementById(`change-${i}-${j}-key`)?.focus();
    });
    spots.set(place, { place, name: where, control: chooser, message });
    const cells: Child = (["how", "value", "first", "second", "nu", "source"] as const).map((name) => {
      const column = COLUMNS.find((known) => known.name === name)!;
      const now = (): Row => ({ ...BLANK_ROW, ...sweep!.points[i]!.changes[j]! });
      const take = (typed: string): void => {
        const { how, fields, rest } = column.set(now(), typed);
        setChange(i, j, { key: one.key, how, fields, rest }, name);
      };
      if (name === "how") {
        const select = html(
          "select",
          { "aria-label": fillText(pageWords.studyForm.sweep.howOf, { where }), id: `change-${i}-${j}-how` },
          howOptions(false, kinds),
        );
        select.value = row.how;
        select.addEventListener("change", () => {
          take(select.value);
          draw();
          document.getElementById(`change-${i}-${j}-how`)?.focus();
        });
        return html("td", { class: "c-how", "data-title": column.title }, select);
      }
      const asked =
        name === "source"
          ? { field: "source", short: "", words: pageWords.studyTable.said.source }
          : howOf(row.how)?.[name];
      if (asked === undefined) return html("td", { "data-title": column.title });
      const input = html("input", {
        type: "text",
        autocomplete: "off",
        placeholder: asked.short,
        "aria-label": `${asked.words}, ${where}`,
        "data-place": `${place}.${asked.field}`,
      });
      input.value = column.get(row);
      input.addEventListener("input", () => take(input.value));
      spots.set(`${place}.${asked.field}`, {
        place: `${place}.${asked.field}`,
        name: `${asked.words}, ${where}`,
        control: input,
        message,
      });
      return html("td", { class: `c-${name}`, "data-title": column.title }, input);
    });
    return html(
      "tr",
      { class: "line" },
      html("td", { "data-title": pageWords.studyForm.sweep.input }, chooser, message),
      cells,
      html(
        "td",
        {},
        html(
          "button",
          {
            type: "button",
            class: "quiet small",
            "aria-label": fillText(pageWords.studyForm.sweep.removeOne, { where }),
            onclick: () => {
              setPoint(i, { changes: sweep!.points[i]!.changes.filter((_, at) => at !== j) }, "");
              draw();
              document.getElementById(`add-change-${i}`)?.focus();
            },
          },
          pageWords.library.remove,
        ),
      ),
    );
  };

  draw();
  return element;
}

const newPoint = (): PointDraft => ({ at: "", changes: [] });
