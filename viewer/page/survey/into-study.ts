import { words } from "../later-words.ts";
import { fillText } from "../../present/fill.ts";
import { own } from "../../present/own.ts";
import { html, type Child } from "../draw/node.ts";
import { fixed } from "../numbers.ts";
import type { EvaluatedSurvey } from "../../api/surveys.ts";
import type { ShownSurvey } from "./evaluated.ts";
import { surveyTable } from "./table.ts";

/** What a reader decides about the study that is made from a survey. */
export interface StudyChoice {
  readonly study: string;
  /** Distributions in place of those the evaluation gives, by quantity. */
  readonly distributions: Readonly<Record<string, string>>;
}

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
      [html("span", { class: "meaning" }, meaningOf(name)), " ", html("code", {}, name)],
      ...(corrected ? [milli(estimate)] : []),
      milli(halfWidth),
      String(distribution),
      // The stop keeps the two apart where the cell is taken away as text.
      [
        `${String(source)}.`,
        html("span", { class: "source" }, String((evidence as { method?: unknown } | undefined)?.method ?? "")),
      ],
    ]),
  );
}

/** Chooses the study whose quantities are replaced, and makes it: to be run at once or shown first. */
export function intoStudy(
  { survey, studies }: ShownSurvey,
  make: (choice: StudyChoice, run: boolean) => void,
): HTMLElement {
  const names = Object.keys(survey.statements);
  if (studies.length === 0) {
    return html(
      "div",
      { class: "into-study" },
      html(
        "p",
        { id: "survey-no-study" },
        fillText(words.survey.noStudy, { names: names.join(", ") }),
        html("code", {}, "npx trialband survey DESCRIPTION --study STUDY --run"),
        ".",
      ),
    );
  }
  const study = html(
    "select",
    { id: "survey-into", onchange: () => remark() },
    // Without one of the same bath the choice is the reader's alone.
    studies.some(({ sameBath }) => sameBath) ? null : html("option", { value: "" }, words.survey.chooseStudy),
    studies.map(({ id, title, sameBath }) =>
      html("option", { value: id }, sameBath ? fillText(words.survey.thisBath, { title }) : title),
    ),
  );
  const said = html("p", { class: "note", id: "survey-into-note", role: "status" });
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
  remark();
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
          offered.map((distribution) => html("option", { value: distribution }, distribution)),
        ),
      };
    });
  const decide = (run: boolean): void => {
    if (study.value !== "") return make(choice(), run);
    said.textContent = words.survey.chooseFirst;
    study.focus();
  };
  const choice = (): StudyChoice => ({
    study: study.value,
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
