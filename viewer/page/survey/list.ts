import { fillText } from "../../present/fill.ts";
import { messages } from "../language.ts";
import { words } from "../later-words.ts";
import { writeAddress } from "../address.ts";
import { html } from "../draw/node.ts";
import type { ListedSurvey } from "../../api/surveys.ts";

/** The surveys at hand, and what to do for one of one's own. */
export const surveyList = (surveys: readonly ListedSurvey[]): HTMLElement =>
  html(
    "div",
    { class: "survey-list" },
    html(
      "header",
      { class: "sheet-head" },
      html("p", { class: "kind" }, words.survey.kindList),
      html("h1", { id: "sheet-title", tabindex: -1 }, messages.surveyPanels.all),
      html("p", { class: "notes" }, words.survey.about),
    ),
    html(
      "section",
      { class: "panel", id: "own-survey" },
      html("h2", {}, words.survey.own),
      html(
        "p",
        {},
        html(
          "a",
          { href: writeAddress({ kind: "survey-setup", id: null }), id: "set-up-survey", class: "strong" },
          words.survey.setUp,
        ),
      ),
      html("p", { class: "note" }, words.survey.setUpNote),
      ownSurveys(surveys),
      html("p", { class: "note" }, words.survey.byHand, html("strong", {}, words.shelf.open), words.survey.dropped),
    ),
    html(
      "section",
      { class: "panel" },
      html("h2", { id: "surveys-title" }, words.survey.atHand),
      surveys.every(({ draft }) => draft !== undefined)
        ? html("p", { id: "no-surveys" }, words.survey.none)
        : html(
            "ul",
            { class: "surveys", id: "surveys" },
            surveys.flatMap(({ id, title, notes, log, opened, draft }) =>
              draft === undefined
                ? [
                    html(
                      "li",
                      {},
                      html("a", { href: writeAddress({ kind: "survey", id }), id: `survey-of-${id}` }, title),
                      html("span", { class: "note" }, `${log}${opened === true ? words.survey.opened : ""}`),
                      notes === null ? null : html("span", { class: "note" }, notes),
                    ),
                  ]
                : [],
            ),
          ),
    ),
  );

/** The surveys that were set up here: the evaluation of each, if there is one, and the draft to change. */
const ownSurveys = (surveys: readonly ListedSurvey[]): HTMLElement | null => {
  const own = surveys.flatMap(({ draft, ...survey }) => (draft === undefined ? [] : [{ ...survey, draft }]));
  if (own.length === 0) return null;
  return html(
    "ul",
    { class: "surveys", id: "own-surveys" },
    own.map(({ id, title, log, draft }) =>
      html(
        "li",
        {},
        html(
          "a",
          {
            href: writeAddress(id === "" ? { kind: "survey-setup", id: draft } : { kind: "survey", id }),
            id: `own-survey-${draft}`,
          },
          title,
        ),
        html(
          "span",
          { class: "note" },
          id === "" ? fillText(words.survey.draft, { log: log === "" ? words.survey.noLog : log }) : log,
        ),
        id === ""
          ? null
          : html(
              "a",
              {
                href: writeAddress({ kind: "survey-setup", id: draft }),
                "aria-label": fillText(words.survey.changeOne, { title }),
              },
              words.survey.change,
            ),
      ),
    ),
  );
};
