import { html, redraw, type Child } from "../draw/node.ts";

type Control = HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement;

/** A control under its label, with help and room for what is wrong with it. */
export function field(id: string, label: Child, control: Control, help = "", wide = false): HTMLElement {
  control.id = id;
  control.setAttribute("aria-describedby", help === "" ? `${id}-problem` : `${id}-help ${id}-problem`);
  return html(
    "p",
    { class: wide ? "field wide" : "field" },
    html("label", { for: id }, label),
    control,
    html("span", { class: "field-problem", id: `${id}-problem` }),
    help === "" ? null : html("span", { class: "note", id: `${id}-help` }, help),
  );
}

/** A control of a table: its name is read, its column shows it. */
export function cell(id: string, name: string, control: Control): HTMLElement {
  control.id = id;
  control.setAttribute("aria-label", name);
  control.setAttribute("aria-describedby", `${id}-problem`);
  return html("td", {}, control, html("span", { class: "field-problem", id: `${id}-problem` }));
}

export const input = (
  value: string,
  change: (value: string) => void,
  attributes: Readonly<Record<string, string>> = {},
): HTMLInputElement => {
  const element = html("input", {
    type: "text",
    autocomplete: "off",
    spellcheck: "false",
    size: attributes["class"] === "figure" ? 6 : 12,
    ...attributes,
    value,
    oninput: () => change(element.value),
  });
  return element;
};

export const select = (
  value: string,
  options: readonly (readonly [string, string])[],
  change: (value: string) => void,
): HTMLSelectElement => {
  const element = html(
    "select",
    { onchange: () => change(element.value) },
    options.map(([name, words]) => html("option", { value: name, selected: name === value }, words)),
  );
  return element;
};

export const button = (
  id: string,
  words: string,
  press: () => void,
  attributes: Readonly<Record<string, string>> = {},
): HTMLButtonElement => html("button", { type: "button", class: "quiet", id, ...attributes, onclick: press }, words);

/** As `redraw`, and what was selected in a field stays selected: nobody's typing is turned round by an answer that arrives. */
export function redrawTyping(element: Element, draw: () => void): void {
  const active = document.activeElement;
  const range =
    active instanceof HTMLInputElement && active.type === "text" && element.contains(active)
      ? ([active.selectionStart, active.selectionEnd] as const)
      : null;
  redraw(element, draw);
  const now = document.activeElement;
  if (range !== null && now instanceof HTMLInputElement && now !== active) now.setSelectionRange(...range);
}
