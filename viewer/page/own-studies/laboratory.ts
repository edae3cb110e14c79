import type { Laboratory, LaboratoryDefaults } from "../../api/laboratory.ts";
import { plain } from "../../present/numbers.ts";
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
      html("h1", { id: "sheet-title", tabindex: -1 }, "Defaults of the laboratory"),
      html(
        "p",
        { class: "notes" },
        "What new studies begin with, kept on the server for every browser of the laboratory. Studies that exist stay as they are, and each new one can be changed.",
      ),
    ),
    body,
  );
  let version: number | null = null;
  return {
    show: ({ laboratory }) => {
      if (laboratory === null) body.replaceChildren(html("p", { class: "note" }, "Reading…"));
      // A list that was read anew leaves what is typed alone.
      else if (laboratory.version !== version) {
        const kept = version !== null;
        version = laboratory.version;
        body.replaceChildren(form(laboratory, actions));
        if (kept) {
          document.getElementById("laboratory-said")!.textContent = "Kept.";
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
    probability: "a coverage probability p",
    factor: "a fixed coverage factor k",
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
  const digits = choose("laboratory-digits", String(seen.digits) as "1" | "2", { 1: "one", 2: "two" });
  const language = choose("laboratory-language", seen.language, { en: "English", de: "Deutsch" });
  const seed = choose("laboratory-seed", seen.seed, {
    same: "the same for every study, 1",
    fresh: "a new one for each study",
  });

  const read = (): LaboratoryDefaults | null => {
    const p = numberIn(probability.value) / 100;
    const k = numberIn(factor.value);
    const wrong = [
      mark(probability, p > 0.5 && p < 1 ? null : "Enter a number of percent above 50 and below 100, such as 95."),
      mark(factor, k > 0 && k <= 10 ? null : "Enter a number above 0 and at most 10, such as 2."),
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
    field("laboratory-name", "Name of the laboratory", "For the head of each sheet", name),
    field("laboratory-coverage", "Coverage is stated by", "Each study can say otherwise", coverage),
    field("laboratory-probability", "Coverage probability in %", "k then follows from p and ν_eff", probability),
    field("laboratory-factor", "Coverage factor", "For studies with a fixed k", factor),
    field("laboratory-digits", "Significant digits of u", "From them follows the numerical tolerance δ", digits),
    field("laboratory-language", "Language of the glossary", "The page itself is in English", language),
    field("laboratory-seed", "Seed", "The same seed makes two studies comparable draw by draw", seed),
    html(
      "p",
      { class: "buttons" },
      html("button", { type: "submit", class: "main", id: "keep-laboratory" }, "Keep"),
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
