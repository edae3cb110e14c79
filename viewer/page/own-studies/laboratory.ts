import { words as pageWords } from "../later-words.ts";
import { LANGUAGES } from "../language-choice.ts";
import type { Laboratory, LaboratoryDefaults } from "../../api/laboratory.ts";
import { plain } from "../numbers.ts";
import type { Actions } from "../actions/index.ts";
import { html } from "../draw/node.ts";
import type { State } from "../state.ts";

/** What every new study of the laboratory begins with: asked once, the same in each of its browsers. */
export function createLaboratory(actions: Actions): { readonly show: (state: State) => HTMLElement } {
  const body = html("div", {});
  const element = html(
    "div",
    { class: "laboratory-view" },
    html(
      "header",
      { class: "sheet-head" },
      html("h1", { id: "sheet-title", tabindex: -1 }, pageWords.frame.laboratory),
      html("p", { class: "notes" }, pageWords.ownStudies.about),
    ),
    body,
  );
  let version: number | null = null;
  return {
    show: ({ laboratory }) => {
      if (laboratory === null) body.replaceChildren(html("p", { class: "note" }, pageWords.sheet.reading));
      // A list that was read anew leaves what is typed alone.
      else if (laboratory.version !== version) {
        const kept = version !== null;
        version = laboratory.version;
        body.replaceChildren(form(laboratory, actions));
        if (kept) {
          document.getElementById("laboratory-said")!.textContent = pageWords.ownStudies.kept;
          document.getElementById("keep-laboratory")?.focus();
        }
      }
      return element;
    },
  };
}

const choose = <T extends string>(id: string, now: T, options: Readonly<Record<T, string>>): HTMLSelectElement =>
  html(
    "select",
    { id },
    (Object.entries(options) as [T, string][]).map(([value, words]) =>
      html("option", { value, selected: value === now }, words),
    ),
  );

const field = (id: string, label: string, help: string, control: HTMLElement): HTMLElement => {
  control.setAttribute("aria-describedby", `${id}-help ${id}-problem`);
  return html(
    "div",
    { class: "asked" },
    html("label", { for: id }, label),
    html("p", { class: "note", id: `${id}-help` }, help),
    html("p", { class: "field-problem", id: `${id}-problem` }),
    control,
  );
};

/** A number as people type it, with a decimal point or comma. */
const numberIn = (text: string): number => Number(text.trim().replace(",", ".") || Number.NaN);

function form(seen: Laboratory, { setLaboratory }: Actions): HTMLElement {
  const name = html("input", { type: "text", id: "laboratory-name", maxlength: 200, value: seen.name });
  const coverage = choose("laboratory-coverage", seen.coverage, {
    probability: pageWords.ownStudies.coverages.probability,
    factor: pageWords.ownStudies.coverages.factor,
  });
  const probability = html("input", {
    type: "text",
    class: "figure",
    id: "laboratory-probability",
    inputmode: "decimal",
    value: plain(100 * seen.probability),
  });
  const factor = html("input", {
    type: "text",
    class: "figure",
    id: "laboratory-factor",
    inputmode: "decimal",
    value: plain(seen.factor),
  });
  const digits = choose("laboratory-digits", String(seen.digits) as "1" | "2", {
    1: pageWords.ownStudies.digitsOne,
    2: pageWords.ownStudies.digitsTwo,
  });
  const language = choose("laboratory-language", seen.language, LANGUAGES);
  const seed = choose("laboratory-seed", seen.seed, {
    same: pageWords.ownStudies.seeds.same,
    fresh: pageWords.ownStudies.seeds.fresh,
  });

  const read = (): LaboratoryDefaults | null => {
    const p = numberIn(probability.value) / 100;
    const k = numberIn(factor.value);
    const wrong = [
      mark(probability, p > 0.5 && p < 1 ? null : pageWords.ownStudies.wrongPercent),
      mark(factor, k > 0 && k <= 10 ? null : pageWords.ownStudies.wrongFactor),
    ].find((control) => control !== null);
    if (wrong !== undefined) {
      wrong!.focus();
      return null;
    }
    return {
      name: name.value.trim(),
      coverage: coverage.value as LaboratoryDefaults["coverage"],
      // 95.45 % as a number of percent has rounding errors as a fraction: 12 digits are those that were typed.
      probability: Number(p.toPrecision(12)),
      factor: k,
      digits: digits.value === "1" ? 1 : 2,
      language: language.value as LaboratoryDefaults["language"],
      seed: seed.value as LaboratoryDefaults["seed"],
    };
  };

  return html(
    "form",
    {
      class: "laboratory-form panel",
      novalidate: true,
      onsubmit: (event: SubmitEvent) => {
        event.preventDefault();
        const defaults = read();
        if (defaults !== null) void setLaboratory(seen, defaults);
      },
    },
    field("laboratory-name", pageWords.ownStudies.name, pageWords.ownStudies.nameHelp, name),
    field("laboratory-coverage", pageWords.ownStudies.coverage, pageWords.ownStudies.coverageHelp, coverage),
    field(
      "laboratory-probability",
      pageWords.ownStudies.probability,
      pageWords.ownStudies.probabilityHelp,
      probability,
    ),
    field("laboratory-factor", pageWords.ownStudies.factor, pageWords.ownStudies.factorHelp, factor),
    field("laboratory-digits", pageWords.ownStudies.digits, pageWords.ownStudies.digitsHelp, digits),
    field("laboratory-language", pageWords.help.language, pageWords.ownStudies.languageHelp, language),
    field("laboratory-seed", pageWords.ownStudies.seed, pageWords.ownStudies.seedHelp, seed),
    html(
      "p",
      { class: "buttons" },
      html("button", { type: "submit", class: "main", id: "keep-laboratory" }, pageWords.ownStudies.keep),
      html("span", { class: "note", role: "status", id: "laboratory-said" }),
    ),
  );
}

/** Marks a field as wrong with what to enter, or as right. @returns the field if it is wrong */
function mark(control: HTMLInputElement, problem: string | null): HTMLInputElement | null {
  document.getElementById(`${control.id}-problem`)!.textContent = problem ?? "";
  if (problem === null) control.removeAttribute("aria-invalid");
  else control.setAttribute("aria-invalid", "true");
  return problem === null ? null : control;
}
