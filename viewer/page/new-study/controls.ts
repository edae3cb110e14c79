import { html, type Child } from "../draw/node.ts";

/** A place of the study in the form: where a problem of it is shown, and what takes the focus. */
export interface Spot {
  readonly place: string;
  /** How the place is called in a list of what is left to do. */
  readonly name: string;
  readonly control: HTMLElement;
  readonly message: HTMLElement;
}

/** Where controls put themselves, so that problems find them. */
export type Spots = Map<string, Spot>;

export const idOf = (place: string): string => `in-${place.replaceAll(".", "-")}`;

/** What a labelled control is made from. */
export interface Labelled {
  readonly place: string;
  readonly label: Child;
  /** The label in words alone. */
  readonly name: string;
  /** Unit after the label, or "". */
  readonly unit?: string;
  readonly help?: string;
  readonly wide?: boolean;
}

/** A control under its label, with help and room for what is wrong with it. */
export function labelled(
  { place, label, name, unit = "", help = "", wide = false }: Labelled,
  control: HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement,
  spots: Spots,
): HTMLElement {
  const id = idOf(place);
  control.id = id;
  control.dataset.place = place;
  const message = html("span", { class: "field-problem", id: `${id}-problem` });
  const helpId = help === "" ? "" : `${id}-help`;
  control.setAttribute("aria-describedby", [helpId, `${id}-problem`].filter((part) => part !== "").join(" "));
  spots.set(place, { place, name, control, message });
  return html(
    "p",
    { class: wide ? "field wide" : "field" },
    html("label", { for: id }, label, unit === "" ? null : html("span", { class: "unit" }, ` / ${unit}`)),
    control,
    message,
    help === "" ? null : html("span", { class: "note", id: helpId }, help),
  );
}

export const textInput = (
  value: string,
  change: (value: string) => void,
  attributes: Readonly<Record<string, string | number>> = {},
): HTMLInputElement => {
  const input = html("input", {
    type: "text",
    autocomplete: "off",
    ...attributes,
    value,
    oninput: () => change(input.value),
  });
  return input;
};

/** A figure: the keyboard of a phone offers digits, and nothing corrects it. */
export const numberInput = (value: string, change: (value: string) => void): HTMLInputElement =>
  textInput(value, change, { inputmode: "text", spellcheck: "false", class: "figure" });

export const textArea = (value: string, rows: number, change: (value: string) => void): HTMLTextAreaElement => {
  const area = html("textarea", { rows, spellcheck: "false", oninput: () => change(area.value) });
  area.value = value;
  return area;
};

export const choice = <V extends string>(
  value: V,
  options: readonly (readonly [V, string])[],
  change: (value: V) => void,
): HTMLSelectElement => {
  const select = html(
    "select",
    { onchange: () => change(select.value as V) },
    options.map(([name, words]) => html("option", { value: name, selected: name === value }, words)),
  );
  return select;
};
