import { words } from "../later-words.ts";
import { counted } from "../counted.ts";
import { html } from "../draw/node.ts";
import { namesFor, wordBefore, type OfferedName } from "./names.ts";

/** The list of names below a field: arrow keys choose, Enter or Tab takes, Escape closes. */
export interface NameList {
  readonly element: HTMLElement;
  /** Takes a key of the field. @returns whether the list has used it */
  readonly key: (event: KeyboardEvent) => boolean;
  /** Offers what fits the word at the caret. */
  readonly offer: () => void;
  readonly close: () => void;
}

/**
 * The keyboard of the ARIA combobox pattern for a text of several lines: the focus stays in the field, and
 * `aria-activedescendant` follows the arrow keys. The field keeps its role, since a combobox has one line.
 *
 * @param take puts a name in place of the word at the caret
 */
export function createNameList(
  field: HTMLTextAreaElement,
  names: () => readonly OfferedName[],
  take: (name: OfferedName, word: string) => void,
): NameList {
  const id = `${field.id}-names`;
  const list = html("ul", { class: "names", id, role: "listbox", "aria-label": words.equation.names, hidden: true });
  const told = html("span", { class: "unseen", role: "status" });
  let offered: readonly OfferedName[] = [];
  let active = -1;
  let word = "";
  field.setAttribute("aria-autocomplete", "list");
  field.setAttribute("aria-controls", id);

  const draw = (): void => {
    list.hidden = offered.length === 0;
    list.replaceChildren(
      ...offered.map(({ text, meaning }, i) =>
        html(
          "li",
          {
            role: "option",
            id: `${id}-${i}`,
            "aria-selected": i === active ? "true" : "false",
            // Before the field loses the focus to the list.
            onmousedown: (event: MouseEvent) => {
              event.preventDefault();
              choose(i);
            },
          },
          html("code", {}, text),
          html("span", { class: "note" }, ` ${meaning}`),
        ),
      ),
    );
    if (active < 0) field.removeAttribute("aria-activedescendant");
    else field.setAttribute("aria-activedescendant", `${id}-${active}`);
    list.children[active]?.scrollIntoView({ block: "nearest" });
  };
  const close = (): void => {
    if (offered.length === 0) return;
    offered = [];
    active = -1;
    told.textContent = "";
    draw();
  };
  const choose = (i: number): void => {
    const name = offered[i]!;
    close();
    take(name, word);
  };
  const open = (all: boolean): void => {
    word = field.selectionStart === field.selectionEnd ? wordBefore(field.value, field.selectionStart) : "";
    offered = word === "" && !all ? [] : namesFor(word, names());
    active = -1;
    told.textContent = offered.length === 0 ? "" : counted(words.equation.fits, offered.length);
    draw();
  };
  const move = (by: number): void => {
    active = active < 0 ? (by > 0 ? 0 : offered.length - 1) : (active + by + offered.length) % offered.length;
    draw();
  };

  return {
    element: html("div", { class: "name-list" }, list, told),
    offer: () => open(false),
    close,
    key(event) {
      if (event.key === " " && event.ctrlKey) {
        open(true);
        return true;
      }
      if (offered.length === 0 || event.ctrlKey || event.metaKey || event.altKey) return false;
      if (event.key === "ArrowDown" || event.key === "ArrowUp") move(event.key === "ArrowDown" ? 1 : -1);
      else if (event.key === "Escape") close();
      else if ((event.key === "Enter" || event.key === "Tab") && active >= 0) choose(active);
      else {
        if (/^(Arrow|Home|End|Page|Enter|Tab)/.test(event.key)) close();
        return false;
      }
      return true;
    },
  };
}
