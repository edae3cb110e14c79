import { own } from "../../present/own.ts";
import { messages, speech } from "../language.ts";
import { fromEnglish } from "../draw/from-english.ts";
import { words } from "../later-words.ts";
import { fillText } from "../../present/fill.ts";
import { distributionWords } from "../../present/budget.ts";
import { html, type Child } from "../draw/node.ts";
import { fixed } from "../numbers.ts";
import type { EvidenceInputs } from "../../api/evidence-evaluation.ts";
import { listEvidenceInputs, RequestError } from "../api.ts";
import type { EvaluatedSurvey } from "../../api/surveys.ts";
import type { ShownSurvey } from "./evaluated.ts";
import { surveyTable } from "./table.ts";

/** What a reader decides about the study that is made from a survey. */
export interface StudyChoice {
  readonly study: string;
  /** Distributions in place of those the evaluation gives, by quantity. */
  readonly distributions: Readonly<Record<string, string>>;
  /** Inputs that quantities go into, where the study has other names for them; "" leaves a quantity out. */
  readonly into: Readonly<Record<string, string>>;
}

/** A distribution in words. */
const kindOf = (distribution: string): string => distributionWords(distribution, distribution, messages);

/** The quantities of a survey in words, with the distributions each may be given. */
const QUANTITIES: Readonly<Record<string, { readonly meaning: string; readonly distributions: readonly string[] }>> = {
  bathStability: {
    meaning: words.survey.meanings.stability,
    distributions: ["rectangular", "triangular", "arcsine", "normal"],
  },
  bathAxial: { meaning: words.survey.meanings.axial, distributions: ["rectangular", "triangular", "arcsine"] },
  bathRadial: { meaning: words.survey.meanings.radial, distributions: ["rectangular", "triangular", "arcsine"] },
};

const LABELS: Readonly<Record<string, string>> = {
  bathStability: words.survey.labels.stability,
  bathAxial: words.survey.labels.axial,
  bathRadial: words.survey.labels.radial,
};

const meaningOf = (name: string): string => own(QUANTITIES, name)?.meaning ?? name;

/** What comes out of a survey for a budget. */
export function quantityTable({ statements }: EvaluatedSurvey): HTMLElement {
  const corrected = Object.values(statements).some(({ estimate }) => estimate !== 0);
  const milli = (value: unknown): string => (typeof value === "number" ? fixed(1000 * value, 3) : "–");
  return surveyTable(
    "survey-quantities",
    words.survey.inputs,
    [
      { head: words.survey.quantity, kind: "words" },
      ...(corrected ? [{ head: words.survey.estimate, kind: "figure" } as const] : []),
      { head: words.survey.halfWidth, kind: "figure" },
      { head: words.survey.distribution, kind: "word" },
      { head: words.survey.from, kind: "words" },
    ],
    Object.entries(statements).map(([name, { estimate, halfWidth, distribution, source, evidence }]): Child[] => [
      html("span", { class: "meaning" }, meaningOf(name)),
      ...(corrected ? [milli(estimate)] : []),
      milli(halfWidth),
      kindOf(String(distribution)),
      // The stop keeps the two apart where the cell is taken away as text.
      [
        `${speech.translate(String(source))}.`,
        html(
          "span",
          { class: "source" },
          fromEnglish(String((evidence as { method?: unknown } | undefined)?.method ?? "")),
        ),
      ],
    ]),
  );
}

/** Which input of a study takes a quantity. */
function inputChoice(
  quantity: string,
  inputs: EvidenceInputs["inputs"],
): { readonly quantity: string; readonly select: HTMLSelectElement; readonly element: HTMLElement } {
  const id = `survey-target-${quantity}`;
  const select = html(
    "select",
    { id },
    html("option", { value: "" }, words.forms.study.leave),
    inputs.map(({ name, symbol, meaning, unit, stated }) => {
      const input = `${symbol.replaceAll(/[_{}]/g, "")}, ${meaning} / ${unit}`;
      return html(
        "option",
        { value: name, selected: name === quantity },
        stated ? fillText(words.forms.study.stated, { input }) : input,
      );
    }),
  );
  return {
    quantity,
    select,
    element: html(
      "p",
      { class: "field whole" },
      html("label", { for: id }, fillText(words.forms.study.into, { quantity: meaningOf(quantity) })),
      select,
    ),
  };
}

/** Chooses the study whose quantities are replaced, and makes it: to be run at once or shown first. */
export function intoStudy(
  { survey, studies }: ShownSurvey,
  make: (choice: StudyChoice, run: boolean) => void,
): HTMLElement {
  const names = Object.keys(survey.statements);
  if (studies.length === 0) {
    return html("div", { class: "into-study" }, html("p", { id: "survey-no-study" }, words.survey.noStudy));
  }
  const study = html(
    "select",
    { id: "survey-into", onchange: () => choose() },
    // Without one of the same bath the choice is the reader's alone.
    studies.some(({ sameBath, fits }) => sameBath && fits)
      ? null
      : html("option", { value: "" }, words.survey.chooseStudy),
    studies.map(({ id, title, sameBath }) =>
      html("option", { value: id }, sameBath ? fillText(words.survey.thisBath, { title }) : title),
    ),
  );
  const said = html("p", { class: "note", id: "survey-into-note", role: "status" });
  const targets = html("div", { class: "fields", id: "survey-targets" });
  let picks: readonly { readonly quantity: string; readonly select: HTMLSelectElement }[] = [];
  /** Of a study whose inputs have other names, which input takes which quantity. */
  const askTargets = async (): Promise<void> => {
    const id = study.value;
    picks = [];
    targets.replaceChildren();
    if (id === "" || studies.find((one) => one.id === id)?.fits === true) return;
    try {
      const { inputs } = await listEvidenceInputs(id);
      if (study.value !== id) return;
      const chosen = names.map((quantity) => inputChoice(quantity, inputs));
      picks = chosen;
      targets.replaceChildren(...chosen.map(({ element }) => element));
    } catch (error) {
      if (!(error instanceof RequestError)) throw error;
      said.textContent = error.fault.message;
    }
  };
  const choose = (): void => {
    remark();
    void askTargets();
  };
  const remark = (): void => {
    const chosen = studies.find(({ id }) => id === study.value);
    const stays = words.survey.stays;
    said.textContent =
      chosen === undefined
        ? fillText(words.survey.noneOfBath, { stays })
        : chosen.sameBath
          ? stays
          : fillText(words.survey.otherBath, { stays });
  };
  choose();
  const selects = names
    .filter((name) => Object.hasOwn(QUANTITIES, name))
    .map((name) => {
      const given = String(survey.statements[name]!.distribution);
      const offered = [...new Set([given, ...QUANTITIES[name]!.distributions])];
      return {
        name,
        given,
        select: html(
          "select",
          { id: `survey-${name}` },
          offered.map((distribution) => html("option", { value: distribution }, kindOf(distribution))),
        ),
      };
    });
  const decide = (run: boolean): void => {
    const fits = studies.find(({ id }) => id === study.value)?.fits === true;
    if (study.value !== "" && !fits && picks.every(({ select }) => select.value === "")) {
      said.textContent = words.survey.chooseInputs;
      return picks[0]?.select.focus();
    }
    if (study.value !== "") return make(choice(), run);
    said.textContent = words.survey.chooseFirst;
    study.focus();
  };
  const choice = (): StudyChoice => ({
    study: study.value,
    into: Object.fromEntries(picks.map(({ quantity, select }) => [quantity, select.value])),
    distributions: Object.fromEntries(
      selects.filter(({ given, select }) => select.value !== given).map(({ name, select }) => [name, select.value]),
    ),
  });
  return html(
    "div",
    { class: "into-study" },
    html("h3", {}, words.survey.intoStudy),
    html(
      "div",
      { class: "fields" },
      html("p", { class: "field whole" }, html("label", { for: "survey-into" }, words.survey.which), study),
      targets,
      selects.map(({ name, select }) =>
        html(
          "p",
          { class: "field" },
          html("label", { for: `survey-${name}` }, fillText(words.survey.as, { name: LABELS[name]! })),
          select,
        ),
      ),
    ),
    said,
    html(
      "p",
      { class: "buttons" },
      html(
        "button",
        { type: "button", class: "main", id: "survey-run", "data-needs": "run", onclick: () => decide(true) },
        words.survey.makeAndRun,
      ),
      html(
        "button",
        { type: "button", class: "quiet", id: "survey-study", onclick: () => decide(false) },
        words.survey.showFirst,
      ),
    ),
  );
}
