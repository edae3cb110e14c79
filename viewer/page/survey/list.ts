import { messages } from "../language.ts";
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
      html("p", { class: "kind" }, "From the log to the verdict"),
      html("h1", { id: "sheet-title", tabindex: -1 }, messages.surveyPanels.all),
      html(
        "p",
        { class: "notes" },
        "A survey is a log of thermometers that stood in the bath at known places and times. From it come the bath’s stability and its vertical and horizontal differences, as input quantities with their evidence.",
      ),
    ),
    html(
      "section",
      { class: "panel", id: "own-survey" },
      html("h2", {}, "A survey of your own"),
      html(
        "p",
        {},
        html(
          "a",
          { href: writeAddress({ kind: "survey-setup", id: null }), id: "set-up-survey", class: "strong" },
          "Set up a survey from a log",
        ),
      ),
      html(
        "p",
        { class: "note" },
        "Drop the log as the logger wrote it, say which column is which thermometer and who stood where from when to when. Drafts are kept as you go.",
      ),
      ownSurveys(surveys),
      html(
        "p",
        { class: "note" },
        "A description that was written by hand (JSON) is opened together with its log by ",
        html("strong", {}, "Open a file"),
        ", or dropped with it anywhere on this page.",
      ),
    ),
    html(
      "section",
      { class: "panel" },
      html("h2", { id: "surveys-title" }, "Surveys at hand"),
      surveys.every(({ draft }) => draft !== undefined)
        ? html("p", { id: "no-surveys" }, "None yet. Set up one of your own, as described above.")
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
                      html(
                        "span",
                        { class: "note" },
                        `${log}${opened === true ? ", opened here: kept until the server stops" : ""}`,
                      ),
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
        html("span", { class: "note" }, id === "" ? `${log === "" ? "no log yet" : log}, a draft` : log),
        id === ""
          ? null
          : html(
              "a",
              { href: writeAddress({ kind: "survey-setup", id: draft }), "aria-label": `Change ${title}` },
              "Change it",
            ),
      ),
    ),
  );
};
