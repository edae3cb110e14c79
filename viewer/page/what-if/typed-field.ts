import { html } from "../draw/node.ts";
import type { InputChange } from "./study-change.ts";

/** Pause in typing after which a figure is taken, in milliseconds: half a figure is another figure. */
const PAUSE = 400;

/** A field for a figure of an input, with what it makes of the stated one below. */
export interface TypedField {
  readonly element: HTMLElement;
  set(change: InputChange): void;
}

/** What a field is about. */
export interface Typed<T> {
  readonly id: string;
  /** Seen above the field. */
  readonly label: string;
  /** Heard: the label with the quantity's symbol. */
  readonly name: string;
  readonly placeholder: string;
  /** The figure of a change. */
  of(change: InputChange): T;
  /** What was typed, or why it is none, in words. */
  read(text: string, change: InputChange): { readonly value: T } | { readonly wrong: string };
  same(a: T, b: T): boolean;
  /** How a figure that was not typed here stands in the field. */
  written(value: T): string;
  /** What stands below the field. */
  said(change: InputChange): string;
}

/** @param choose takes another figure */
export function typedField<T>(about: Typed<T>, start: InputChange, choose: (value: T) => void): TypedField {
  const said = html("span", { class: "note", id: `${about.id}-said`, role: "status" });
  let now = start;
  let timer: ReturnType<typeof setTimeout> | undefined;

  const say = (): void => {
    input.removeAttribute("aria-invalid");
    said.textContent = about.said(now);
  };
  const refuse = (why: string): void => {
    input.setAttribute("aria-invalid", "true");
    said.textContent = why;
  };
  const take = (): void => {
    clearTimeout(timer);
    const read = about.read(input.value, now);
    if ("wrong" in read) refuse(read.wrong);
    else if (about.same(read.value, about.of(now))) say();
    else choose(read.value);
  };
  const input = html("input", {
    type: "text",
    id: about.id,
    class: "figure",
    autocomplete: "off",
    spellcheck: "false",
    placeholder: about.placeholder,
    "aria-label": about.name,
    "aria-describedby": `${about.id}-said`,
    oninput: () => {
      clearTimeout(timer);
      timer = setTimeout(take, PAUSE);
    },
    onchange: take,
  });

  return {
    element: html(
      "span",
      { class: "try-field" },
      html("span", { class: "try-label", "aria-hidden": "true" }, about.label),
      input,
      said,
    ),
    set(to) {
      const other = !about.same(about.of(to), about.of(now));
      now = to;
      const read = about.read(input.value, to);
      // What was typed stays as it was typed, a mistake too, until the figure comes from elsewhere.
      if (other && !("value" in read && about.same(read.value, about.of(to))))
        input.value = about.written(about.of(to));
      else if ("wrong" in read) {
        refuse(read.wrong);
        return;
      }
      say();
    },
  };
}
