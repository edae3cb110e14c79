import { writeAddress } from "../address.ts";
import { messages } from "../language.ts";
import { words } from "../later-words.ts";
import { html, redraw } from "../draw/node.ts";
import { takeAway } from "../take-away/take-away.ts";
import { nameShown } from "../draw/taken-from.ts";
import type { EvaluatedSurvey } from "../../api/surveys.ts";
import type { ShownSurvey } from "./evaluated.ts";
import { intoStudy, quantityTable, type StudyChoice } from "./into-study.ts";
import { surveyPanels, type SurveyPanel } from "./panels.ts";
import { remarkPanels, surveyFacts } from "./remarks.ts";

/** Width for print: the text width of A4, which fits Letter too; also used if the page has no width yet. */
const PRINT_WIDTH = 680;

const quantities: SurveyPanel = {
  id: "survey-budget",
  title: messages.survey.budget,
  appliesTo: () => true,
  render: (_element, survey) => [quantityTable(survey)],
};
const PANELS: readonly SurveyPanel[] = [quantities, ...surveyPanels, ...remarkPanels];

/** A survey on the sheet: what comes out of it, its pictures, and the way into a study. */
export function createSurveyView(make: (id: string, choice: StudyChoice, run: boolean) => void): {
  readonly show: (shown: ShownSurvey, busy: boolean) => HTMLElement;
} {
  const element = html("div", { class: "survey-view" });
  let shown: ShownSurvey | null = null;
  let drawings: readonly { readonly body: HTMLElement; readonly panel: SurveyPanel }[] = [];

  const draw = (print: boolean): void => {
    if (shown === null || !element.isConnected) return;
    const { survey } = shown;
    redraw(element, () => {
      for (const { body, panel } of drawings)
        body.replaceChildren(...elementsOf(panel, body, survey, print ? PRINT_WIDTH : Math.max(240, body.clientWidth)));
    });
  };
  let width = innerWidth;
  addEventListener("resize", () => {
    if (innerWidth === width) return;
    width = innerWidth;
    draw(false);
  });
  addEventListener("beforeprint", () => draw(true));
  addEventListener("afterprint", () => draw(false));

  return {
    show: (now, busy) => {
      if (now !== shown) {
        shown = now;
        const { survey } = now;
        nameShown({
          title: survey.evaluation.title,
          startedAt: null,
          digest: survey.files.at(-1)?.sha256 ?? null,
          measurand: null,
        });
        const applying = PANELS.filter((panel) => panel.appliesTo(survey));
        drawings = applying.map((panel) => ({ panel, body: html("div", { class: "panel-body" }) }));
        element.replaceChildren(
          headOf(survey),
          ...drawings.map(({ panel: { id, title }, body }) =>
            html(
              "section",
              { class: `panel panel-${id}`, id: `panel-${id}`, "aria-labelledby": `title-${id}` },
              html("h2", { id: `title-${id}` }, title),
              body,
              takeAway(body, id, title),
              id === quantities.id ? intoStudy(now, (choice, run) => make(survey.id, choice, run)) : null,
            ),
          ),
        );
        // Drawn once it stands on the page and has a width.
        queueMicrotask(() => draw(false));
      }
      for (const id of ["survey-run", "survey-study"])
        element.querySelector(`#${id}`)?.toggleAttribute("disabled", busy);
      return element;
    },
  };
}

function elementsOf(panel: SurveyPanel, body: HTMLElement, survey: EvaluatedSurvey, width: number): Node[] {
  return [...html("div", {}, ...panel.render(body, survey, width)).childNodes];
}

const headOf = (survey: EvaluatedSurvey): HTMLElement =>
  html(
    "header",
    { class: "sheet-head" },
    html("p", { class: "kind" }, survey.opened ? words.survey.kindOpened : words.survey.kind),
    html("h1", { id: "sheet-title", tabindex: -1 }, survey.evaluation.title),
    survey.remark === null ? null : html("p", { class: "notes" }, survey.remark),
    html(
      "p",
      { class: "notes" },
      surveyFacts(survey),
      " ",
      survey.own === null
        ? null
        : html(
            "a",
            { href: writeAddress({ kind: "survey-setup", id: survey.own }), id: "to-setup" },
            words.survey.changeOrAnother,
          ),
      survey.own === null ? null : " · ",
      html("a", { href: writeAddress({ kind: "surveys" }), id: "to-surveys" }, words.survey.all),
    ),
  );
