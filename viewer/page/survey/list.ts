import { en } from "../../present/messages/en/index.ts";
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
      html("h1", { id: "sheet-title", tabindex: -1 }, en.surveyPanels.all),
      html(
        "p",
        { class: "notes" },
        "A survey is a log of thermometers that stood in the bath at known places and times. From it come the bath’s stability and its vertical and horizontal differences, as input quantities with their evidence.",
      ),
    ),
    html(
      "section",
      { class: "panel" },
      html("h2", { id: "surveys-title" }, "Surveys at hand"),
      surveys.length === 0
        ? html("p", { id: "no-surveys" }, "None yet. Open one of your own, as described below.")
        : html(
            "ul",
            { class: "surveys", id: "surveys" },
            surveys.map(({ id, title, notes, log, opened }) =>
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
            ),
          ),
    ),
    html(
      "section",
      { class: "panel", id: "own-survey" },
      html("h2", {}, "A survey of your own"),
      html(
        "ul",
        { class: "sentences" },
        html(
          "li",
          {},
          "Log two thermometers or more in the bath as CSV or XLSX: a column of time and a column for each, with its unit in the heading.",
        ),
        html(
          "li",
          {},
          "Describe it in a JSON file beside the log: the file’s name, the positions with depth and radius in mm, and who stood where from when to when. The descriptions listed above are examples; so are ",
          html("code", {}, "examples/survey/*.json"),
          ".",
        ),
        html(
          "li",
          {},
          "Choose both files together with ",
          html("strong", {}, "Open a file"),
          ", or drop both anywhere on this page. They are evaluated on this machine.",
        ),
      ),
    ),
  );
