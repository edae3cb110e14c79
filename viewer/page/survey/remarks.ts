import { en } from "../../present/messages/en/index.ts";
import { plain } from "../../present/numbers.ts";
import { html, type Child } from "../draw/node.ts";
import type { Check, EvaluatedSurvey } from "../../api/surveys.ts";
import { duration, moment } from "../../present/survey-figures.ts";
import type { SurveyPanel } from "./panels.ts";

const sentences = (items: readonly Child[]): HTMLElement =>
  html(
    "ul",
    { class: "sentences" },
    items.map((item) => html("li", {}, item)),
  );
const checked = ({ check, found }: Check): Child => [html("strong", {}, check), `: ${found}`];

/** What does not hold stands open; what holds is folded. */
const checks: SurveyPanel = {
  id: "survey-checks",
  title: en.survey.checks,
  appliesTo: () => true,
  render(element, { notes, evaluation }) {
    const failed = evaluation.checks.filter(({ passed }) => !passed);
    const held = evaluation.checks.filter(({ passed }) => passed);
    const details = html(
      "details",
      { class: "checks-held", id: "checks-held", open: element.dataset.held === "open" },
      html(
        "summary",
        { id: "checks-held-summary" },
        held.length === 1 ? "The check that holds" : `The ${held.length} checks that hold`,
      ),
      html(
        "ul",
        { class: "checks" },
        held.map((one) =>
          html(
            "li",
            {},
            html("span", { class: "sign", "aria-hidden": "true" }, "✓"),
            html("span", {}, ...[checked(one)].flat()),
          ),
        ),
      ),
    );
    details.addEventListener("toggle", () => (element.dataset.held = details.open ? "open" : ""));
    return [
      failed.length === 0
        ? html("p", { id: "checks-failed" }, `Every one of the ${evaluation.checks.length} checks of the survey holds.`)
        : [
            html(
              "p",
              { id: "checks-failed" },
              `${failed.length} of the ${evaluation.checks.length} checks of the survey ${failed.length === 1 ? "does" : "do"} not hold:`,
            ),
            html(
              "ul",
              { class: "checks failed" },
              failed.map((one) =>
                html(
                  "li",
                  {},
                  html("span", { class: "sign", "aria-hidden": "true" }, "✗"),
                  html("span", {}, html("span", { class: "unseen" }, "does not hold: "), ...[checked(one)].flat()),
                ),
              ),
            ),
          ],
      notes.length === 0 ? null : sentences(notes),
      held.length === 0 ? null : details,
    ];
  },
};

const safety: SurveyPanel = {
  id: "cautions",
  title: en.sections.cautions,
  appliesTo: () => true,
  render(_element, { evaluation }) {
    if (evaluation.safety === null)
      return [
        html(
          "p",
          {},
          "The description does not say which bath this is: nothing could be judged. The fluid’s safety data sheet, local codes and qualified persons decide.",
        ),
      ];
    const { warnings, unknown, cautions } = evaluation.safety;
    return [
      sentences([
        ...warnings.map(({ warning, because }) => [html("strong", {}, "Warning: "), `${warning}; ${because}.`]),
        ...(unknown.length === 0 ? [] : [`Not judged: ${unknown.join("; ")}.`]),
        ...cautions,
      ]),
    ];
  },
};

const origin: SurveyPanel = {
  id: "survey-origin",
  title: en.survey.origin,
  appliesTo: () => true,
  render(_element, { files, arrangement, calibrationMinutes, evaluation }) {
    const fact = (term: string, value: Child): HTMLElement =>
      html("div", {}, html("dt", {}, term), html("dd", {}, value));
    return [
      html(
        "dl",
        { class: "provenance" },
        files.map(({ name, sha256 }, i) =>
          fact(i === 0 ? "Description" : "Log", [name, " ", html("code", {}, `SHA-256 ${sha256}`)]),
        ),
        Object.entries(evaluation.samplings).map(([name, { samples, interval, from, to }]) =>
          fact(name, `${plain(samples)} readings, one every ${duration(interval)}, ${moment(from)} to ${moment(to)}`),
        ),
        fact("Arrangement", ARRANGEMENTS[arrangement] ?? arrangement),
        fact("A calibration takes", duration(60 * calibrationMinutes)),
      ),
      html("h3", {}, en.survey.reasoning),
      sentences(evaluation.reasoning),
    ];
  },
};

const ARRANGEMENTS: Readonly<Record<string, string>> = {
  "reference-fixed": "the reference stands at the reference position, a probe anywhere in the zone",
  midpoint: "corrected to the middle of the zone’s differences",
  anywhere: "either thermometer may stand anywhere in the zone",
};

export const remarkPanels: readonly SurveyPanel[] = [checks, safety, origin];

/** What a survey is, in a line below its title. */
export const surveyFacts = ({ evaluation: { samplings, stay }, files }: EvaluatedSurvey): string =>
  `Log ${files[1]?.name ?? ""} of ${Object.keys(samplings).join(" and ")}; stability from ${stay.thermometer} at ${stay.position}.`;
