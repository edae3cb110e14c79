import type { EvaluatedEvidence, EvidenceInputs, EvidenceUse } from "../../api/evidence-evaluation.ts";
import { listEvidenceInputs, studyFromEvidence } from "../api.ts";
import { fillText } from "../../present/fill.ts";
import { html, redraw } from "../draw/node.ts";
import { field } from "../evidence/field.ts";
import type { FormContext } from "../evidence/frame.ts";
import { words } from "../later-words.ts";
import { quantityName } from "./result.ts";

/** A study to choose, by the id that the server finds it with. */
export interface ChoosableStudy {
  readonly id: string;
  readonly title: string;
  readonly own: boolean;
}

/** What a form asks of the page. */
export interface StudyDoor {
  readonly studies: () => readonly ChoosableStudy[];
  /** Runs the study that was made, or shows it first. */
  readonly take: (study: Readonly<Record<string, unknown>>, run: boolean) => Promise<void>;
}

/** The way into a study: which one, and which input each quantity goes into. */
export interface IntoStudy {
  readonly element: HTMLElement;
  readonly draw: () => void;
  /** The set temperature of the chosen study's bath, °C; `null` if none is known. */
  readonly temperature: () => number | null;
}

/** @param chosen told once the inputs of a study are known */
export function createIntoStudy<Draft>(
  context: FormContext<Draft>,
  door: StudyDoor,
  evaluated: () => EvaluatedEvidence | null,
  use: () => EvidenceUse,
  chosen: () => void = () => undefined,
): IntoStudy {
  const body = html("div", { class: "into-study" });
  const element = html(
    "section",
    { class: "panel", id: "setup-into", "aria-labelledby": "setup-into-title" },
    html("h2", { id: "setup-into-title" }, words.forms.study.title),
    body,
  );
  const said = html("p", { class: "note", role: "status", id: "setup-into-said" });
  let study = "";
  let found: EvidenceInputs | null = null;
  /** The input of each quantity, as far as the reader has chosen another than the one of its name. */
  const picked = new Map<string, string>();

  const choose = async (id: string): Promise<void> => {
    study = id;
    found = null;
    said.textContent = words.forms.study.note;
    draw();
    if (id === "") return;
    try {
      const inputs = await listEvidenceInputs(id);
      if (study !== id) return;
      found = inputs;
      draw();
      chosen();
    } catch (error) {
      context.refused(error);
    }
  };

  const inputOf = (quantity: string): string =>
    picked.get(quantity) ?? (found?.inputs.some(({ name }) => name === quantity) === true ? quantity : "");

  const make = async (run: boolean): Promise<void> => {
    const shown = evaluated();
    if (shown === null) return;
    if (study === "") {
      said.textContent = words.forms.study.chooseFirst;
      return document.getElementById("setup-into-study")?.focus();
    }
    const into = Object.fromEntries(
      Object.keys(shown.statements).flatMap((quantity) => {
        const input = inputOf(quantity);
        return input === "" ? [] : [[quantity, input]];
      }),
    );
    if (Object.keys(into).length === 0) {
      said.textContent = words.forms.study.nothing;
      return document.getElementById(`setup-into-${Object.keys(shown.statements)[0]}`)?.focus();
    }
    const kept = await context.save();
    if (kept === null) return;
    try {
      const made = await studyFromEvidence(kept.id, { study, into, use: use() });
      await door.take(made.study, run);
    } catch (error) {
      context.refused(error);
    }
  };

  // Made once: a list that is made anew while somebody types a title into it forgets the letters before.
  const list = html("select", { onchange: () => void choose(list.value) });
  const quantities = html("div", { class: "fields" });
  const form = html(
    "div",
    {},
    html("div", { class: "fields" }, field("setup-into-study", words.forms.study.choose, list, "", true)),
    quantities,
    said,
    html(
      "p",
      { class: "buttons" },
      html(
        "button",
        { type: "button", class: "main", id: "setup-into-run", "data-needs": "run", onclick: () => void make(true) },
        words.forms.study.run,
      ),
      html(
        "button",
        { type: "button", class: "quiet", id: "setup-into-show", "data-needs": "run", onclick: () => void make(false) },
        words.forms.study.show,
      ),
    ),
  );
  let offered: string | null = null;

  function draw(): void {
    const shown = evaluated();
    const names = Object.keys(shown?.statements ?? {});
    element.hidden = names.length === 0;
    if (names.length === 0) return;
    const studies = door.studies();
    const offering = JSON.stringify(studies.map(({ id, title, own }) => [id, title, own]));
    if (offering !== offered) {
      offered = offering;
      redraw(body, () => {
        list.replaceChildren(...optionsOf(studies, study));
        body.replaceChildren(...(studies.length === 0 ? [html("p", {}, words.forms.study.empty)] : [form]));
      });
    }
    redraw(quantities, () =>
      quantities.replaceChildren(...(found === null ? [] : names.map((name) => inputField(name, found!)))),
    );
  }

  function inputField(quantity: string, { inputs }: EvidenceInputs): HTMLElement {
    const select = html(
      "select",
      { onchange: () => void picked.set(quantity, select.value) },
      html("option", { value: "" }, words.forms.study.leave),
      inputs.map(({ name, symbol, meaning, unit, stated }) => {
        const input = `${symbol.replaceAll(/[_{}]/g, "")}, ${meaning} / ${unit}`;
        return html(
          "option",
          { value: name, selected: inputOf(quantity) === name },
          stated ? fillText(words.forms.study.stated, { input }) : input,
        );
      }),
    );
    return field(
      `setup-into-${quantity}`,
      fillText(words.forms.study.into, { quantity: quantityName(quantity) }),
      select,
      "",
      true,
    );
  }

  said.textContent = words.forms.study.note;
  return { element, draw, temperature: () => found?.temperature ?? null };
}

/** The studies to choose from, own ones first. */
function optionsOf(studies: readonly ChoosableStudy[], chosen: string): HTMLElement[] {
  const group = (label: string, all: readonly ChoosableStudy[]): HTMLElement[] =>
    all.length === 0
      ? []
      : [
          html(
            "optgroup",
            { label },
            all.map(({ id, title }) => html("option", { value: id, selected: id === chosen }, title)),
          ),
        ];
  return [
    html("option", { value: "" }, words.forms.study.none),
    ...group(
      words.forms.study.own,
      studies.filter(({ own }) => own),
    ),
    ...group(
      words.forms.study.shelf,
      studies.filter(({ own }) => !own),
    ),
  ];
}
