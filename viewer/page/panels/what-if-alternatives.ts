import type { RunRecord } from "../../../engine/index.ts";
import { fillText } from "../../present/fill.ts";
import { messages } from "../language.ts";
import { html } from "../draw/node.ts";
import { labelNodes } from "../draw/symbol.ts";
import { keepAlternatives, MOST_ALTERNATIVES, type Alternative } from "../what-if/alternatives.ts";
import { changeLabels } from "../what-if/change-words.ts";
import { isEmpty, type StudyChange } from "../what-if/study-change.ts";

const words = messages.whatIfPanel;

/** Named changes of a study, kept in the browser: each is shown again, edited as a study, renamed by keeping it anew, removed. */
export interface Alternatives {
  readonly element: HTMLElement;
  /** Those that are kept, in the order in which they were. */
  all(): readonly Alternative[];
  /** The change that stands in the fields now. */
  set(change: StudyChange): void;
}

/**
 * @param kept those that the browser kept
 * @param show puts an alternative's changes into the fields
 * @param edit opens a copy of the study with them in the form
 * @param changed the list is another one
 */
export function createAlternatives(
  record: RunRecord,
  kept: readonly Alternative[],
  show: (change: StudyChange) => void,
  edit: (change: StudyChange, name: string) => void,
  changed: () => void,
): Alternatives {
  const list = html("ul", { class: "alternatives" });
  const said = html("span", { class: "note", role: "status", id: "alternative-said" });
  let alternatives = kept;
  let now: StudyChange = { inputs: {}, correlations: {} };

  const name = html("input", {
    type: "text",
    id: "alternative-name",
    autocomplete: "off",
    maxlength: 60,
    onkeydown: (event: KeyboardEvent) => {
      if (event.key === "Enter") keep();
    },
  });
  const button = html(
    "button",
    { type: "button", class: "quiet", id: "alternative-keep", onclick: () => keep() },
    words.keepAlternative,
  );
  const take = (next: readonly Alternative[], saying: string, undo: readonly Alternative[] | null): void => {
    alternatives = next;
    const note = keepAlternatives(record, next) ? saying : `${saying} ${words.notKept}`;
    said.replaceChildren(
      note,
      ...(undo === null
        ? []
        : [
            " ",
            html(
              "button",
              { type: "button", class: "inline", id: "alternative-back", onclick: () => take(undo, "", null) },
              words.bringBack,
            ),
          ]),
    );
    draw();
    changed();
  };
  const keep = (): void => {
    if (isEmpty(now)) {
      said.textContent = words.nothingToKeep;
      return;
    }
    const own = name.value.trim() === "" ? firstFree(alternatives) : name.value.trim();
    const others = alternatives.filter((one) => one.name !== own);
    if (others.length >= MOST_ALTERNATIVES) {
      said.textContent = fillText(words.mostAlternatives, { count: String(MOST_ALTERNATIVES) });
      return;
    }
    name.value = "";
    const at = alternatives.findIndex((one) => one.name === own);
    const added = { name: own, change: now };
    take(
      at < 0 ? [...alternatives, added] : alternatives.map((one, i) => (i === at ? added : one)),
      fillText(at < 0 ? words.keptAlternative : words.keptAnew, { name: own }),
      at < 0 ? null : alternatives,
    );
  };
  const remove = (one: Alternative): void => {
    take(
      alternatives.filter((other) => other !== one),
      fillText(words.removedAlternative, { name: one.name }),
      alternatives,
    );
    name.focus();
  };

  const item = (one: Alternative, i: number): HTMLElement => {
    const act = (key: string, label: string, work: () => void): HTMLElement =>
      html(
        "button",
        {
          type: "button",
          class: "quiet small",
          id: `alternative-${i}-${key}`,
          "aria-label": `${label}: ${one.name}`,
          onclick: work,
        },
        label,
      );
    return html(
      "li",
      {},
      html("strong", {}, one.name),
      html(
        "ul",
        { class: "sentences" },
        changeLabels(record, one.change, messages).map((line) => html("li", {}, labelNodes(line))),
      ),
      html(
        "p",
        { class: "buttons" },
        act("show", words.showAlternative, () => show(one.change)),
        act("edit", words.edit, () => edit(one.change, one.name)),
        act("remove", words.removeAlternative, () => remove(one)),
      ),
    );
  };
  const draw = (): void => {
    list.hidden = alternatives.length === 0;
    list.replaceChildren(...alternatives.map(item));
  };
  draw();
  return {
    element: html(
      "fieldset",
      { class: "alternatives-part" },
      html("legend", {}, words.alternatives),
      html(
        "p",
        { class: "buttons" },
        html("label", { for: "alternative-name" }, words.alternativeName),
        name,
        button,
        html(
          "button",
          {
            type: "button",
            class: "quiet",
            id: "edit-changed",
            onclick: () => {
              if (isEmpty(now)) said.textContent = words.nothingToKeep;
              else edit(now, "");
            },
          },
          words.edit,
        ),
        said,
      ),
      list,
    ),
    all: () => alternatives,
    set: (change) => {
      now = change;
    },
  };
}

/** "Alternative 2", the first number that none has. */
function firstFree(alternatives: readonly Alternative[]): string {
  for (let n = 1; ; n += 1) {
    const name = fillText(words.alternativeNumber, { n: String(n) });
    if (!alternatives.some((one) => one.name === name)) return name;
  }
}
