import type { Problem } from "../../../engine/index.ts";
import { fillText } from "../../present/fill.ts";
import { html } from "../draw/node.ts";
import { speech, words } from "../language.ts";

/** A field of a form: the id of its control, and what the form calls it. */
export interface Place {
  readonly id: string;
  readonly name: string;
}

/** Complaints of a form: each beside the field that it is of, and all of them in one list that leads there. */
export interface Complaints {
  readonly element: HTMLElement;
  /** Shows what was found, in the place of what was shown before; nothing, if there is nothing. */
  readonly show: (found: readonly Problem[], message?: string) => void;
  /** Puts the focus on the first field that something is wrong with. */
  readonly focusFirst: () => void;
}

/**
 * @param form where the fields are
 * @param placeOf the field of a place in the description; `null` if it has none
 * @param inWords what is accepted, in the form's words
 */
export function createComplaints(
  form: () => HTMLElement,
  placeOf: (place: string) => Place | null,
  inWords: (accepted: string) => string,
): Complaints {
  const element = html("div", { id: "setup-problems" });
  let first: string | null = null;
  return {
    element,
    focusFirst: () => {
      if (first !== null) document.getElementById(first)?.focus();
    },
    show: (found, message = "") => {
      for (const field of form().querySelectorAll(".field-problem")) field.textContent = "";
      for (const control of form().querySelectorAll("[aria-invalid]")) control.removeAttribute("aria-invalid");
      first = null;
      if (found.length === 0 && message === "") return void element.replaceChildren();
      element.replaceChildren(
        html("p", { class: "field-problem" }, message),
        html(
          "ul",
          { class: "sentences" },
          found.map(({ place, value, accepted }) => {
            const known = placeOf(place);
            const parts = { value: speech.translate(value), accepted: inWords(speech.translate(accepted)) };
            const at = known === null ? null : document.getElementById(`${known.id}-problem`);
            if (at !== null) at.textContent = fillText(words.frame.problemHere, parts);
            const control = known === null ? null : document.getElementById(known.id);
            control?.setAttribute("aria-invalid", "true");
            if (control !== null) first ??= known!.id;
            const text = fillText(words.frame.problem, { ...parts, place: known?.name ?? place });
            return html(
              "li",
              {},
              control === null
                ? text
                : html(
                    "button",
                    { type: "button", class: "inline", onclick: () => document.getElementById(known!.id)?.focus() },
                    text,
                  ),
            );
          }),
        ),
      );
    },
  };
}
