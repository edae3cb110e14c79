import { html, type Child } from "./node.ts";

/** A choice of one among a few, set as a row of words; the arrow keys move along it. */
export function choiceSwitch<V extends string>(
  id: string,
  legend: Child,
  options: readonly { readonly value: V; readonly label: Child; readonly disabled?: boolean }[],
  chosen: V,
  choose: (value: V) => void,
): HTMLElement {
  return html(
    "fieldset",
    { class: "switch", id },
    html("legend", {}, legend),
    html(
      "span",
      { class: "options" },
      options.map(({ value, label, disabled }) => [
        html("input", {
          type: "radio",
          name: id,
          id: `${id}-${value}`,
          value,
          checked: value === chosen,
          disabled: disabled ?? false,
          onchange: () => choose(value),
        }),
        html("label", { for: `${id}-${value}` }, label),
      ]),
    ),
  );
}

/** A slider over a list of values, with the value in words beside it. */
export interface ListSlider {
  readonly element: HTMLElement;
  /** Sets the values and the one chosen, without telling anyone. */
  set(values: readonly number[], chosen: number): void;
}

/** @param words a value in words, for the eye and for reading aloud */
export function listSlider(
  id: string,
  label: string,
  words: (value: number) => string,
  choose: (value: number) => void,
): ListSlider {
  let values: readonly number[] = [];
  const output = html("output", { for: id });
  const input = html("input", {
    type: "range",
    id,
    min: 0,
    step: 1,
    oninput: () => {
      const value = values[Number(input.value)]!;
      tell(value);
      choose(value);
    },
  });
  const tell = (value: number): void => {
    output.textContent = words(value);
    input.setAttribute("aria-valuetext", words(value));
  };
  return {
    element: html("p", { class: "slider" }, html("label", { for: id }, label), input, output),
    set: (now, chosen) => {
      values = now;
      const nearest = values.reduce(
        (best, value, i) => (Math.abs(value - chosen) < Math.abs(values[best]! - chosen) ? i : best),
        0,
      );
      input.max = String(values.length - 1);
      input.value = String(nearest);
      input.disabled = values.length < 2;
      tell(chosen);
    },
  };
}
