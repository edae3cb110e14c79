import { own } from "../../present/own.ts";
import { html, type Child } from "../draw/node.ts";
import { fixed } from "../../present/numbers.ts";
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
    meaning: "stability over a calibration",
    distributions: ["rectangular", "triangular", "arcsine", "normal"],
  },
  bathAxial: { meaning: "vertical difference in the zone", distributions: ["rectangular", "triangular", "arcsine"] },
  bathRadial: { meaning: "horizontal difference in the zone", distributions: ["rectangular", "triangular", "arcsine"] },
};

const LABELS: Readonly<Record<string, string>> = {
  bathStability: "Stability",
  bathAxial: "Vertical difference",
  bathRadial: "Horizontal difference",
};

const meaningOf = (name: string): string => own(QUANTITIES, name)?.meaning ?? name;

/** What comes out of a survey for a budget. */
export function quantityTable({ statements }: EvaluatedSurvey): HTMLElement {
  const corrected = Object.values(statements).some(({ estimate }) => estimate !== 0);
  const milli = (value: unknown): string => (typeof value === "number" ? fixed(1000 * value, 3) : "–");
  return surveyTable(
    "survey-quantities",
    "Input quantities from this survey",
    [
      { head: "quantity", kind: "words" },
      ...(corrected ? [{ head: "estimate / mK", kind: "figure" } as const] : []),
      { head: "half-width / mK", kind: "figure" },
      { head: "distribution", kind: "word" },
      { head: "where it comes from", kind: "words" },
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
        `No study at hand has the inputs ${names.join(", ")}. Put this survey into a study of your own on the command line: `,
        html("code", {}, "npx trialband survey DESCRIPTION --study STUDY --run"),
        ".",
      ),
    );
  }
  const study = html(
    "select",
    { id: "survey-into", onchange: () => remark() },
    // Without one of the same bath the choice is the reader's alone.
    studies.some(({ sameBath }) => sameBath) ? null : html("option", { value: "" }, "Choose a study"),
    studies.map(({ id, title, sameBath }) => html("option", { value: id }, sameBath ? `${title} (this bath)` : title)),
  );
  const said = html("p", { class: "note", id: "survey-into-note", role: "status" });
  const remark = (): void => {
    const chosen = studies.find(({ id }) => id === study.value);
    const stays = "Everything else in the study stays as it is; the file of the study itself is left alone.";
    said.textContent =
      chosen === undefined
        ? `No study at hand says that it is of this bath: choose the one that is. ${stays}`
        : chosen.sameBath
          ? stays
          : `Study and survey do not name the same bath: a survey of one bath says nothing of another. ${stays}`;
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
    said.textContent = "Choose the study whose quantities the survey replaces.";
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
    html("h3", {}, "Into a study"),
    html(
      "div",
      { class: "fields" },
      html(
        "p",
        { class: "field whole" },
        html("label", { for: "survey-into" }, "Study whose quantities it replaces"),
        study,
      ),
      selects.map(({ name, select }) =>
        html("p", { class: "field" }, html("label", { for: `survey-${name}` }, `${LABELS[name]} as`), select),
      ),
    ),
    said,
    html(
      "p",
      { class: "buttons" },
      html(
        "button",
        { type: "button", class: "main", id: "survey-run", "data-needs": "run", onclick: () => decide(true) },
        "Make the study and run it",
      ),
      html(
        "button",
        { type: "button", class: "quiet", id: "survey-study", onclick: () => decide(false) },
        "Show the study first",
      ),
    ),
  );
}
