import { withinSentence } from "../field-name.ts";
import { words } from "../later-words.ts";
import { fillText } from "../../present/fill.ts";
import { html } from "../draw/node.ts";
import { choice, labelled, numberInput, textInput, type Spots } from "./controls.ts";
import type { CorrelationDraft } from "./draft.ts";

/**
 * The correlations of a study, one a row.
 *
 * @param change told of every change, with all correlations
 */
export function correlationFields(
  names: readonly (readonly [string, string])[],
  before: readonly CorrelationDraft[],
  spots: Spots,
  change: (all: readonly CorrelationDraft[], where: string) => void,
): HTMLElement {
  let all = before;
  const rows = html("div", {});
  const add = html(
    "button",
    {
      type: "button",
      class: "quiet",
      id: "add-correlation",
      onclick: () => {
        all = [...all, { between: ["", ""], coefficient: "", refersTo: "values", series: "", source: "" }];
        change(all, "");
        draw();
        rows.querySelector<HTMLElement>(".input-row:last-child select")?.focus();
      },
    },
    words.studyForm.correlation.add,
  );
  const draw = (): void => {
    for (const key of spots.keys()) if (key.startsWith("correlations.")) spots.delete(key);
    rows.replaceChildren(...all.map((_, i) => row(i)));
  };
  const set = (i: number, part: Partial<CorrelationDraft>): void => {
    all = all.map((one, at) => (at === i ? { ...one, ...part } : one));
    change(all, `correlations.${i}.${Object.keys(part).join()}`);
  };
  const row = (i: number): HTMLElement => {
    const { between, coefficient, refersTo, series, source } = all[i]!;
    const place = `correlations.${i}`;
    const options: (readonly [string, string])[] = [["", words.studyTable.choose], ...names];
    const message = html("p", { class: "field-problem" });
    const first = choice(between[0], options, (name) => set(i, { between: [name, all[i]!.between[1]] }));
    const second = choice(between[1], options, (name) => set(i, { between: [all[i]!.between[0], name] }));
    spots.set(place, {
      place,
      name: fillText(words.studyForm.correlation.said, { n: String(i + 1) }),
      control: first,
      message,
    });
    spots.set(`${place}.between`, {
      place: `${place}.between`,
      name: fillText(words.studyForm.correlation.saidInputs, { n: String(i + 1) }),
      control: first,
      message,
    });
    const field = (
      name: string,
      label: string,
      control: HTMLInputElement | HTMLSelectElement,
      help = "",
    ): HTMLElement =>
      labelled(
        {
          place: `${place}.${name}`,
          label,
          name: fillText(words.studyForm.correlation.saidOf, { what: withinSentence(label), n: String(i + 1) }),
          help,
        },
        control,
        spots,
      );
    return html(
      "fieldset",
      { class: "input-row" },
      html("legend", {}, fillText(words.studyForm.correlation.title, { n: String(i + 1) })),
      html(
        "span",
        { class: "fields" },
        field("between.0", words.studyForm.correlation.between, first),
        field("between.1", words.studyForm.correlation.and, second),
        field(
          "coefficient",
          words.studyForm.correlation.coefficient,
          numberInput(coefficient, (text) => set(i, { coefficient: text })),
          words.studyForm.correlation.coefficientHelp,
        ),
        field(
          "refersTo",
          words.studyForm.correlation.refersTo,
          choice(
            refersTo,
            [
              ["values", words.studyForm.correlation.values],
              ["ranks", words.studyForm.correlation.ranks],
            ],
            (chosen) => set(i, { refersTo: chosen }),
          ),
        ),
        field(
          "series",
          words.studyForm.correlation.ifT,
          choice(
            series,
            [
              ["", words.studyForm.correlation.simultaneous],
              ["simultaneous", words.studyForm.correlation.simultaneousStated],
              ["separate", words.studyForm.correlation.separate],
            ],
            (chosen) => set(i, { series: chosen }),
          ),
          words.studyForm.correlation.seriesHelp,
        ),
        field(
          "source",
          words.studyTable.columns.source,
          textInput(source, (text) => set(i, { source: text })),
        ),
        html(
          "button",
          {
            type: "button",
            class: "quiet small",
            id: `remove-correlation-${i}`,
            "aria-label": fillText(words.studyForm.correlation.removeOne, { n: String(i + 1) }),
            onclick: () => {
              all = all.filter((_, at) => at !== i);
              change(all, "");
              draw();
              add.focus();
            },
          },
          words.library.remove,
        ),
      ),
      message,
    );
  };
  draw();
  return html(
    "div",
    {},
    html("p", { class: "note" }, words.studyForm.correlation.about),
    rows,
    html("p", { class: "buttons" }, add),
  );
}
