import { fromEnglish } from "../draw/from-english.ts";
import { speech, messages } from "../language.ts";
import { fillText } from "../../present/fill.ts";
import { whole } from "../numbers.ts";
import { cautionTexts, samplingText } from "../../present/survey-sentences.ts";
import { html, type Child } from "../draw/node.ts";
import type { Check, EvaluatedSurvey } from "../../api/surveys.ts";
import { duration } from "./figures.ts";
import type { SurveyPanel } from "./panels.ts";

const words = messages.surveyPanels;

const sentences = (items: readonly Child[]): HTMLElement =>
  html(
    "ul",
    { class: "sentences" },
    items.map((item) => html("li", {}, item)),
  );
const checked = ({ check, found }: Check): Child => [html("strong", {}, fromEnglish(check)), ": ", fromEnglish(found)];

/** What does not hold stands open; what holds is folded. */
const checks: SurveyPanel = {
  id: "survey-checks",
  title: messages.survey.checks,
  appliesTo: () => true,
  render(element, { notes, evaluation }) {
    const failed = evaluation.checks.filter(({ passed }) => !passed);
    const count = whole(evaluation.checks.length);
    const held = evaluation.checks.filter(({ passed }) => passed);
    const details = html(
      "details",
      { class: "checks-held", id: "checks-held", open: element.dataset.held === "open" },
      html(
        "summary",
        { id: "checks-held-summary" },
        held.length === 1 ? words.oneHolds : fillText(words.othersHold, { count: whole(held.length) }),
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
        ? html("p", { id: "checks-failed" }, fillText(words.allHold, { count }))
        : [
            html(
              "p",
              { id: "checks-failed" },
              failed.length === 1
                ? fillText(words.oneFails, { count })
                : fillText(words.someFail, { failed: whole(failed.length), count }),
            ),
            html(
              "ul",
              { class: "checks failed" },
              failed.map((one) =>
                html(
                  "li",
                  {},
                  html("span", { class: "sign", "aria-hidden": "true" }, "✗"),
                  html("span", {}, html("span", { class: "unseen" }, words.fails), ...[checked(one)].flat()),
                ),
              ),
            ),
          ],
      notes.length === 0 ? null : sentences(notes.map(fromEnglish)),
      held.length === 0 ? null : details,
    ];
  },
};

const safety: SurveyPanel = {
  id: "cautions",
  title: messages.sections.cautions,
  appliesTo: () => true,
  render(_element, { evaluation }) {
    const found = cautionTexts(evaluation.safety, speech, false);
    if (evaluation.safety === null) return found.map(({ text }) => html("p", {}, text));
    return [
      sentences(
        found.map(({ head, text }) =>
          head === null ? fromEnglish(text) : [html("strong", {}, `${head} `), fromEnglish(text)],
        ),
      ),
    ];
  },
};

const origin: SurveyPanel = {
  id: "survey-origin",
  title: messages.survey.origin,
  appliesTo: () => true,
  render(_element, { files, arrangement, calibrationMinutes, evaluation }) {
    const fact = (term: string, value: Child): HTMLElement =>
      html("div", {}, html("dt", {}, term), html("dd", {}, value));
    return [
      html(
        "dl",
        { class: "provenance" },
        files.map(({ name, sha256 }, i) =>
          fact(i === 0 ? words.description : words.log, [name, " ", html("code", {}, `SHA-256 ${sha256}`)]),
        ),
        Object.entries(evaluation.samplings).map(([name, sampling]) => fact(name, samplingText(sampling, speech))),
        fact(words.arrangement, ARRANGEMENTS[arrangement] ?? arrangement),
        fact(words.calibrationTakes, duration(60 * calibrationMinutes)),
      ),
      html("h3", {}, messages.survey.reasoning),
      sentences(evaluation.reasoning.map(fromEnglish)),
    ];
  },
};

const ARRANGEMENTS: Readonly<Record<string, string>> = {
  "reference-fixed": words.fixed,
  midpoint: words.midpoint,
  anywhere: words.anywhere,
};

export const remarkPanels: readonly SurveyPanel[] = [checks, safety, origin];

/** What a survey is, in a line below its title. */
export const surveyFacts = ({ evaluation: { samplings, stay }, files }: EvaluatedSurvey): string =>
  fillText(words.facts, {
    file: files[1]?.name ?? "",
    thermometers: Object.keys(samplings).join(messages.and),
    thermometer: stay.thermometer,
    position: stay.position,
  });
