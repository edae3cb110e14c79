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
    "Add a correlation",
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
    const options: (readonly [string, string])[] = [["", "choose…"], ...names];
    const message = html("p", { class: "field-problem" });
    const first = choice(between[0], options, (name) => set(i, { between: [name, all[i]!.between[1]] }));
    const second = choice(between[1], options, (name) => set(i, { between: [all[i]!.between[0], name] }));
    spots.set(place, { place, name: `correlation ${i + 1}`, control: first, message });
    spots.set(`${place}.between`, {
      place: `${place}.between`,
      name: `inputs of correlation ${i + 1}`,
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
        { place: `${place}.${name}`, label, name: `${label.toLowerCase()} of correlation ${i + 1}`, help },
        control,
        spots,
      );
    return html(
      "fieldset",
      { class: "input-row" },
      html("legend", {}, `Correlation ${i + 1}`),
      html(
        "span",
        { class: "fields" },
        field("between.0", "Between", first),
        field("between.1", "and", second),
        field(
          "coefficient",
          "Coefficient",
          numberInput(coefficient, (text) => set(i, { coefficient: text })),
          "From −1 to 1; or the word readings: as simultaneous indications of both show it",
        ),
        field(
          "refersTo",
          "Refers to",
          choice(
            refersTo,
            [
              ["values", "values"],
              ["ranks", "ranks"],
            ],
            (chosen) => set(i, { refersTo: chosen }),
          ),
        ),
        field(
          "series",
          "If both are t",
          choice(
            series,
            [
              ["", "simultaneous readings"],
              ["simultaneous", "simultaneous readings, stated"],
              ["separate", "separate series"],
            ],
            (chosen) => set(i, { series: chosen }),
          ),
          "Of equal ν: whether they share their scatter",
        ),
        field(
          "source",
          "Source",
          textInput(source, (text) => set(i, { source: text })),
        ),
        html(
          "button",
          {
            type: "button",
            class: "quiet small",
            id: `remove-correlation-${i}`,
            "aria-label": `Remove correlation ${i + 1}`,
            onclick: () => {
              all = all.filter((_, at) => at !== i);
              change(all, "");
              draw();
              add.focus();
            },
          },
          "Remove",
        ),
      ),
      message,
    );
  };
  draw();
  return html(
    "div",
    {},
    html(
      "p",
      { class: "note" },
      "None unless stated: inputs that have a source in common, such as one reference, depend on one another.",
    ),
    rows,
    html("p", { class: "buttons" }, add),
  );
}
